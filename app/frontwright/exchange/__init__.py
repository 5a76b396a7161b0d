"""Jobs and figures in the forms of other programs, in and out."""
