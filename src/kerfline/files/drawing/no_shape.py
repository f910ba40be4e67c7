"""Why an entity gives no curve."""


class NoShape(Exception):
    """The entity gives no curve; the text says why, and what to do where something can be done."""
