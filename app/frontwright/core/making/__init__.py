"""How fronts are made: parts, panels, chains of thickness, proofs, set-ups."""
