"""Cable routes, hidden and reachable, for rigs on wheels."""
