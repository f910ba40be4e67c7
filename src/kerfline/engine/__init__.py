"""The layout engine: from a slab and its limits to joints and panels."""
