"""A model is read in a process of its own: what it gives, or asks, comes back whole."""

import pytest

from kerfline.errors import InputRefused
from kerfline.files.apart import Overrun
from kerfline.files.building import FloorChoice, FloorQuestion, read_apart, read_building
from kerfline.files.building.read_apart import read_building_apart
from models import ModelWriter, rectangle


def model(tmp_path, count=1):
    w = ModelWriter()
    for n in range(count):
        w.prism("IfcSlab", rectangle(9000 * n, 0, 6000, 5000), -150, 0, predefined="BASESLAB")
    return w.save(tmp_path / "house.ifc")


def test_it_gives_what_is_read_at_home(tmp_path):
    path = model(tmp_path)
    assert read_building_apart(path, FloorChoice()) == read_building(path, FloorChoice())


def test_a_question_comes_back_with_its_offers_and_is_answered(tmp_path):
    path = model(tmp_path, count=2)
    with pytest.raises(FloorQuestion) as asked:
        read_building_apart(path, FloorChoice())
    assert [o.number for o in asked.value.offers] == [1, 2]
    read = read_building_apart(path, FloorChoice(slab="2"))
    assert read.parts.outline.polygon.bounds[0] == pytest.approx(9000)


def test_one_that_takes_too_long_is_refused(tmp_path, monkeypatch):
    def endless(*_):
        raise Overrun

    monkeypatch.setattr(read_apart, "run_apart", endless)
    with pytest.raises(InputRefused, match=r"house\.ifc: this model takes more time or memory"):
        read_building_apart(tmp_path / "house.ifc", FloorChoice())
