"""The rig and the job as solids: spaces, moving parts, hazards."""
