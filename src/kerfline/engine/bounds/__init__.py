"""What is proven of the joint length: that no layout of the same kind has less."""
