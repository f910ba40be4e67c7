"""How good panels and layouts are: their measures, the one price, the one order, the bounds."""
