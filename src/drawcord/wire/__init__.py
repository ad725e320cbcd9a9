"""Conductors and voltage drop: numbers in, numbers out."""
