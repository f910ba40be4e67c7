"""What is given (slab), what is decided (layout) and what is found (findings): frozen data, no decisions."""
