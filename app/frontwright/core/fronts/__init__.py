"""The look: how fronts lie, their edges and sums, rows of through grain."""
