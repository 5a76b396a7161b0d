"""The job file and the shop file."""
