"""Search, choice and the one measure of a route."""
