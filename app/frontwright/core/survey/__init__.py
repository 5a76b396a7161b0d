"""What was measured: readings, positions of members and openings, closures, lean, bow, wind."""
