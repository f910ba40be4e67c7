"""Named rule sets with their sources, and the limits they set for one slab."""
