"""What the layout takes: concrete, steel, filler, cuts."""
