"""The window over an open job."""
