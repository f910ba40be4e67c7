"""The pieces of a slab, each in the frame of its own main direction, and what stands on them."""
