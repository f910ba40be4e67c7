"""The rule sets, listed and printed."""

from commands import refusal, run


def test_rules_are_listed_and_printed() -> None:
    assert "floor" in run("rules").output
    printed = run("rules", "floor").output
    assert "ACI" in printed
    assert "15'-0\"" in printed


def test_a_rule_set_is_printed_in_millimetres_where_they_are_asked_for():
    assert "4572 mm" in run("rules", "floor", "--metric").output, "15 ft"


def test_a_rule_set_that_there_is_not_is_refused_with_those_that_there_are():
    told = refusal("rules", "moat")
    assert "moat" in told
    assert "floor" in told
