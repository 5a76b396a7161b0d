"""What is put on fronts and strips, how much of it, in which loads, and when it may be hung."""
