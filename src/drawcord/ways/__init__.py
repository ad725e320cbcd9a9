"""From solids to a graph: passages, stations, the roof, the room."""
