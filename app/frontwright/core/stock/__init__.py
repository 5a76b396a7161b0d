"""Wood that is there: the rack, what a job wants of it, how it is laid, what is left."""
