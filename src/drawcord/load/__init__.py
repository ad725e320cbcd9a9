"""What to bring: pieces, cuts, parts."""
