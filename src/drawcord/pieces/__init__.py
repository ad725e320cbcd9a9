"""Which pieces of cable, and where their joints fall along a run."""
