"""Candidate slabs in a drawing: gathered, each held against the evidence, then one decision or a question.

::

    scene -> gather -> evidence -> decide -> question
"""

from kerfline.files.drawing.candidates.candidate import Candidate, Source
from kerfline.files.drawing.candidates.decide import Decision, decide
from kerfline.files.drawing.candidates.evidence import judged
from kerfline.files.drawing.candidates.gather import gathered
from kerfline.files.drawing.candidates.question import SlabOpen, slab_question
from kerfline.files.drawing.candidates.scene import Scene, scene_of

__all__ = [
    "Candidate",
    "Decision",
    "Scene",
    "SlabOpen",
    "Source",
    "decide",
    "gathered",
    "judged",
    "scene_of",
    "slab_question",
]
