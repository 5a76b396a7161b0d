"""Fronts as they were made, work in its order, and what is done on site: lines, hanging, packing, the story stick."""
