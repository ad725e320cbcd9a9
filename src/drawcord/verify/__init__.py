"""An independent checker of plans: reads the raw files, works everything out again, shares no code with the planner."""
