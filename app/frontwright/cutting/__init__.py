"""Placing parts on stock."""
