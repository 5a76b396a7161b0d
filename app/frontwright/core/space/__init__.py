"""Fronts against the world: how far doors open, what meets in a corner, what still goes in beside and inside."""
