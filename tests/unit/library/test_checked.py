"""Given joints held against rules."""

import kerfline


def test_a_check_is_mended(tmp_path):
    bays = kerfline.Slab([(0, 0), (30, 0), (30, 10), (0, 10)], "4 in", joints=[[(10, 0), (10, 10)]])
    plain, mended = kerfline.check(bays), kerfline.check(bays, mend=True)
    assert (plain.amended, plain.amendment()) == (None, "")
    assert mended.amended is not None
    assert mended.amended.clean
    assert "1 joint added" in mended.amendment()
    assert {p.name for p in mended.write(tmp_path)} > set(plain.files())


def test_rule_sets_are_compared_side_by_side():
    bays = kerfline.Slab([(0, 0), (30, 0), (30, 10), (0, 10)], "4 in", joints=[[(10, 0), (10, 10)]])
    one, two = kerfline.check(bays), kerfline.check(bays, rules=["floor", "pavement"])
    assert one.report() in two.report()
    assert "pavement" in two.report()
