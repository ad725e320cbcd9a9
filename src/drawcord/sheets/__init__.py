"""Pictures and tables, returned as figures and text."""
