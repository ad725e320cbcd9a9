"""The choice of a job and what it means."""
