"""Which panels to choose: cells between lines, the panels that they allow, an exact cover at the least cost."""
