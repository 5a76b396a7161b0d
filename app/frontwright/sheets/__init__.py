"""Paper: the sheets of a job as PDF."""
