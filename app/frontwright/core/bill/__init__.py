"""What the job takes of wood and hardware, and what is at hand of it."""
