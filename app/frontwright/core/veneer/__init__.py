"""Leaves wanted, and what billets give."""
