"""Exact layouts for near-orthogonal pieces of slab.

The way through: ``solve`` turns the region to its canonical orientation, lists the candidate lines
(``features``, ``candidates``), builds the grid between them (``grid``), lists the legal rectangular
panels with their costs (``panels``, ``costs``), picks the best exact cover (``program``), reads the
joints off it (``runs``) and brings them onto the true outline (``realise``).
"""

from kerfline.engine.orthogonal.large import is_regular
from kerfline.engine.orthogonal.solver import second_opinion, solve

__all__ = ["is_regular", "second_opinion", "solve"]
