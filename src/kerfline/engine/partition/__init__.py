"""Which panels to choose: cells between lines, the panels that they allow, their cost, an exact cover."""
