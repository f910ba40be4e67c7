"""A worked example of the plane similarity transformation with its residuals.

Source: Geo-Linux-Calculations/geofindkey (public repository, revision 0640358), README, sample "Mode
Normal" of a conformal transformation on the plane by least squares; read. Four points known in both
systems, in metres; its residuals are printed to a tenth of a millimetre, its parameters to 12 decimals.
"""

import pytest

from kerfline.geometry.similarity import fit

PLAN = [(1334.71, 285.94), (563.67, -5197.34), (4444.27, 1153.79), (-252.07, 2881.90)]
SITE = [(83477.64, 47377.60), (82557.14, 41916.51), (86610.19, 48160.39), (81962.05, 50016.34)]

COSINE, SINE = 0.999787994227, -0.027289778074
SCALE = 1.000160369835
ORIGIN = (82135.4073, 47128.1437)
RESIDUALS = [(0.0024, 0.0008), (0.0165, -0.0132), (-0.0318, -0.0160), (0.0129, 0.0283)]
LAID = [
    (83477.6376, 47377.5992), (82557.1235, 41916.5232),
    (86610.2218, 48160.4060), (81962.0371, 50016.3117),
]  # fmt: skip

PRINTED = 0.5e-4
"""Half of the last printed decimal, and a hair for the printing of the next."""


def test_parameters():
    found = fit(PLAN, SITE, None)
    assert found is not None
    similarity = found.similarity
    assert similarity.scale == pytest.approx(SCALE, abs=1e-12)
    # The source tells the turn's cosine and sine with the scale in them.
    assert (similarity.a, similarity.b) == pytest.approx((COSINE, SINE), abs=1e-12)
    assert similarity.to_site((0.0, 0.0)) == pytest.approx(ORIGIN, abs=PRINTED * 1.01)


def test_residuals_and_places():
    found = fit(PLAN, SITE, None)
    assert found is not None
    for ours, theirs in zip(found.residuals, RESIDUALS, strict=True):
        assert ours == pytest.approx(theirs, abs=PRINTED * 1.01)
    for point, place in zip(PLAN, LAID, strict=True):
        assert found.similarity.to_site(point) == pytest.approx(place, abs=PRINTED * 1.01)
