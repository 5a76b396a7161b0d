"""An open job without a toolkit: edits, undo, and what every table and form says."""
