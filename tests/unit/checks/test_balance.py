"""Panels, openings and boxouts are the outline that the job gives: what is lost or there twice is an error."""

from dataclasses import fields
from functools import cached_property

import pytest

from checked import FOUR_INCHES, Rule, Severity, box_ring, findings, grid_slab, of
from kerfline.checks.given import given_layout
from kerfline.model.slab import Column, Slab
from kerfline.units import MM_PER_FOOT, MM_PER_INCH

CORRIDOR = Slab(
    outline=box_ring(0, 0, 60, 5),
    thickness=FOUR_INCHES,
    columns=(Column(id="C1", at=(22 * MM_PER_FOOT, 2.5 * MM_PER_FOOT), size=43 * MM_PER_INCH),),
)
"""A diamond of 43 in sides, 60.8 in from point to point, parts a corridor of 60 in."""


def test_a_slab_and_its_panels_balance():
    slab = grid_slab(openings=(box_ring(12, 12, 15, 15),))
    assert not [f for f in findings(slab) if "area of" in f.message]


class LosesAll(Slab):
    """A slab that forgets what boxouts part from its largest piece."""

    @cached_property
    def pieces(self):
        return (max(super().pieces, key=lambda p: p.area),)


class Overflows(Slab):
    """A slab that forgets its openings."""

    @cached_property
    def pieces(self):
        return (self.outline.polygon,)


def as_kind(kind, slab):
    return kind(**{f.name: getattr(slab, f.name) for f in fields(slab)})


def test_concrete_that_the_program_loses_is_an_error_that_says_where():
    """19.5 ft of corridor, 5 ft wide, and two corners of the diamond; 6.08 square feet less than 22 x 5."""
    lossy = as_kind(LosesAll, CORRIDOR)
    (found,) = (f for f in of(Rule.SHAPE, findings(lossy)) if "no panel" in f.message)
    assert found.severity is Severity.ERROR
    lost = 22 * 5 - 43**2 / 2 / 144 + (43 / 2**0.5 - 30) ** 2 / 144
    assert found.message.startswith(f"An area of {lost:.1f} ft2 at (")
    assert found.message.endswith("lies in no panel.")
    assert 0 < found.at[0] < 22 * MM_PER_FOOT
    assert 0 < found.at[1] < 5 * MM_PER_FOOT


def test_a_panel_over_an_opening_is_an_error_that_says_where():
    slab = as_kind(Overflows, grid_slab(openings=(box_ring(12, 12, 15, 15),)))
    (found,) = (f for f in findings(slab) if "no concrete" in f.message)
    assert found.severity is Severity.ERROR
    assert found.at == pytest.approx((13.5 * MM_PER_FOOT, 13.5 * MM_PER_FOOT))


def test_both_ends_of_a_corridor_that_a_boxout_parts_are_panels():
    assert len(CORRIDOR.pieces) == 2
    layout = given_layout(CORRIDOR)
    assert sum(p.area for p in layout.panels) == pytest.approx(
        60 * 5 * MM_PER_FOOT**2
        - (43 * MM_PER_INCH) ** 2
        + 2 * ((43 / 2**0.5 - 30) * MM_PER_INCH) ** 2
    )
    assert not [f for f in findings(CORRIDOR) if "area of" in f.message]
