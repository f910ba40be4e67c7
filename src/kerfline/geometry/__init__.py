"""Measures of plane figures; every measure that two parts need has its one definition here."""
