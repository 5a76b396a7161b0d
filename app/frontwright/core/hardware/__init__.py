"""Hinges, cups and pulls of the fronts."""
