"""What is there before anything is made: surfaces, repairs, drawers as a whole, hazards (stages 1 and 3)."""
