"""Drawings as values: marks in exact lengths, made from a plan, and how they are laid on a ground."""
