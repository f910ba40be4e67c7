"""Rule sets: their names, the user's changes, and mistakes in those."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kerfline.errors import InputRefused
from kerfline.model.job import Mix
from kerfline.rules.rule_set import load, names
from kerfline.units import MM_PER_FOOT, MM_PER_INCH, Unit

FT, IN = MM_PER_FOOT, MM_PER_INCH
FOUR_INCHES = 4 * IN


def refused(overrides, name="floor", **kwargs):
    with pytest.raises(InputRefused) as refusal:
        load(name, overrides, **kwargs)
    return [str(mistake) for mistake in refusal.value.mistakes]


def test_the_default_comes_first_and_the_rest_by_alphabet():
    assert names()[0] == "floor"
    assert list(names()[1:]) == sorted(names()[1:])


@pytest.mark.parametrize("name", names())
def test_every_set_says_for_every_figure_where_it_comes_from(name):
    rule_set = load(name)
    limits = rule_set.limits(FOUR_INCHES, Mix())
    figures = [limits.span, limits.aspect, limits.width, limits.angle]
    figures += [limits.area] if limits.area else []
    figures += [rule_set.cut_limit(FOUR_INCHES, method) for method in rule_set.cut]
    for figure in figures:
        for source in (figure.source, figure.advised_by):
            assert source.publication
            assert source.known in ("read", "quoted", "memory", "practice")
            assert not source.page or source.known in ("read", "quoted")


@pytest.mark.parametrize(
    "publication", ["UFC", "SUDAS", "FHWA", "CSA", "Portland", "Concrete Society"]
)
def test_what_stands_on_a_page_says_which(publication):
    """Whoever checks a figure finds the clause: each of these has a page in the sets that cite it."""
    figures = [
        figure
        for name in names()
        for limits in [load(name).limits(FOUR_INCHES, Mix())]
        for figure in (limits.span, limits.aspect, *([limits.area] if limits.area else []))
    ]
    sources = [source for figure in figures for source in (figure.source, figure.advised_by)]
    cited = [source for source in sources if source.publication.startswith(publication)]
    assert cited
    assert all(source.page.startswith("http") for source in cited)


@pytest.mark.parametrize("name", names())
def test_every_set_is_for_something_and_can_be_cut_by_saw(name):
    rule_set = load(name)
    assert rule_set.title
    assert rule_set.use.endswith(".")
    assert {"conventional", "early-entry"} <= set(rule_set.cut)


@pytest.mark.parametrize("name", names())
def test_a_figure_from_memory_is_never_the_one_that_makes_an_error_by_itself(name):
    """But for the high-shrinkage set, whose bound is the read lower end of a range as well."""
    limits = load(name).limits(FOUR_INCHES, Mix())
    if name == "high-shrinkage":
        assert limits.span.bound == limits.span.advised
        assert limits.span.advised_by.known == "quoted"
    else:
        assert limits.span.source.known != "memory"


thicknesses = st.floats(50.0, 600.0)
mixes = st.builds(
    Mix,
    slump=st.none() | st.floats(0.0, 250.0),
    aggregate=st.none() | st.floats(5.0, 50.0),
)


@given(name=st.sampled_from(names()), thickness=thicknesses, mix=mixes)
def test_advised_is_never_beyond_the_bound(name, thickness, mix):
    rule_set = load(name)
    limits = rule_set.limits(thickness, mix)
    assert 0 < limits.span.advised <= limits.span.bound
    assert limits.aspect.advised <= limits.aspect.bound
    assert limits.width.advised >= limits.width.bound
    assert limits.angle.advised >= limits.angle.bound
    for method in rule_set.cut:
        cut = rule_set.cut_limit(thickness, method)
        assert cut.advised >= cut.bound >= 24.9


@given(name=st.sampled_from(names()), mix=mixes, thickness=thicknesses, more=st.floats(0.0, 300.0))
def test_a_thicker_slab_never_has_a_shorter_span(name, mix, thickness, more):
    thin, thick = (load(name).limits(t, mix).span for t in (thickness, thickness + more))
    assert thick.advised >= thin.advised
    assert thick.bound >= thin.bound


@given(name=st.sampled_from(names()), thickness=thicknesses, mix=mixes)
def test_knowing_nothing_of_the_mix_is_the_most_cautious(name, thickness, mix):
    rule_set = load(name)
    assert (
        rule_set.limits(thickness, Mix()).span.bound <= rule_set.limits(thickness, mix).span.bound
    )


def test_what_is_assumed_of_the_mix_is_said():
    table = load("pca-table")
    assert "slump 4 to 6 in, aggregate below 3/4 in" in table.assumptions(Mix())[0]
    assert "is not known" in table.assumptions(Mix(aggregate=1 * IN))[0]
    assert table.assumptions(Mix(slump=3 * IN)) == ()
    assert table.assumptions(Mix(slump=5 * IN, aggregate=1 * IN)) == ()
    assert load("floor").assumptions(Mix()) == ()


def test_a_mix_that_no_column_is_for_takes_the_most_cautious():
    table = load("pca-table")
    wet = Mix(slump=9 * IN, aggregate=1 * IN)
    assert table.limits(FOUR_INCHES, wet).span.bound == pytest.approx(8 * FT)
    assert "No column" in table.assumptions(wet)[0]


def test_aggregate_alone_leaves_the_slump_open():
    """Large aggregate: 30 t at ordinary slump is more cautious than 36 t at low slump."""
    span = load("pca-table").limits(FOUR_INCHES, Mix(aggregate=1 * IN)).span
    assert span.bound == pytest.approx(10 * FT)


@pytest.mark.parametrize(("metric", "inches"), [(100, 4), (125, 5), (150, 6), (200, 8), (250, 10)])
def test_a_nominal_metric_slab_stands_in_the_row_of_its_inch_size(metric, inches):
    table = load("pca-table")
    known = Mix(slump=75.0)
    assert table.limits(metric, known).span == table.limits(inches * IN, known).span


def test_a_slab_thinner_than_the_table_takes_a_share_of_its_first_row():
    span = load("pca-table").limits(2 * IN, Mix(slump=3 * IN)).span
    assert span.bound == pytest.approx(6 * FT)


def test_a_name_that_is_none_is_answered_with_the_one_that_was_meant():
    with pytest.raises(InputRefused, match=r'found \'flor\'.*did you mean "floor"\?'):
        load("flor")


def test_a_method_that_is_none_is_answered_with_those_that_are():
    with pytest.raises(InputRefused, match="allowed is conventional or early-entry"):
        load("floor").cut_limit(FOUR_INCHES, "laser")


def test_one_value_can_be_changed_and_is_marked_as_the_users():
    limits = load("floor", {"aspect": {"maximum": 1.4}}).limits(FOUR_INCHES, Mix())
    assert (limits.aspect.advised, limits.aspect.bound) == (1.25, 1.4)
    assert limits.aspect.source.known == "user"
    assert limits.aspect.advised_by.known == "read"
    assert limits.span.source.known == "quoted"


def test_a_changed_cap_keeps_the_multiple():
    changed = load("floor", {"span": {"maximum": {"cap": "16 ft"}}})
    assert changed.limits(8 * IN, Mix()).span.bound == pytest.approx(16 * FT)
    assert changed.limits(4 * IN, Mix()).span.bound == pytest.approx(12 * FT)


def test_a_changed_advised_span_leaves_the_maximum_of_a_set_with_one_span():
    changed = load("canada", {"span": {"advised": {"times": 24}}}).limits(125.0, Mix()).span
    assert (changed.advised, changed.bound) == (pytest.approx(3000), pytest.approx(4500))
    single = load("fabric-reinforced", {"span": {"advised": {"times": 30}}}).limits(150.0, Mix())
    assert (single.span.advised, single.span.bound) == (pytest.approx(4500), pytest.approx(6000))
    assert single.span.advised_by.known == "user"
    assert single.span.source.known == "quoted"


def test_a_table_can_take_the_place_of_a_multiple_and_the_reverse():
    rows = [{"from": "4 in", "spans": ["9 ft"]}, {"from": "6 in", "spans": ["14 ft"]}]
    table = load("floor", {"span": {"advised": {"rows": rows}}})
    assert table.limits(5 * IN, Mix()).span.advised == pytest.approx(9 * FT)
    multiple = load("pca-table", {"span": {"maximum": {"times": 30, "cap": "15 ft"}}})
    assert multiple.limits(10 * IN, Mix()).span.bound == pytest.approx(15 * FT)


def test_a_method_of_cutting_can_be_added():
    rows = [{"advised": "1/3", "least": 0.25, "floor": "30 mm"}]
    figure = load("floor", {"cut": {"wet": rows}}).cut_limit(150.0, "wet")
    assert (figure.advised, figure.bound) == (pytest.approx(50.0), pytest.approx(37.5))
    assert figure.source.known == "user"


def test_an_area_can_be_added():
    own = {"area": {"advised": "20 m2", "maximum": "25 m2"}}
    area = load("floor", own).limits(100.0, Mix()).area
    assert (area.advised, area.bound) == (20e6, 25e6)
    assert area.source.known == "user"


def test_a_bare_length_is_in_the_jobs_unit_or_refused():
    own = {"width": {"least": 1, "advised": 4}}
    assert load("floor", own, unit=Unit.FT).width.bound == pytest.approx(FT)
    assert "a bare number needs a unit" in refused(own)[0]


@pytest.mark.parametrize(
    ("overrides", "sentence"),
    [
        ({"spam": {}}, 'spam: there is no "spam" here; did you mean "span"?'),
        ({"aspect": {"maximun": 2}}, 'aspect.maximun: there is no "maximun" here'),
        ({"aspect": 2}, "aspect: a table is needed here; found 2"),
        ({"aspect": {"maximum": "wide"}}, "aspect.maximum: a number above 0 is needed here"),
        ({"aspect": {"maximum": True}}, "aspect.maximum: a number above 0 is needed here"),
        ({"aspect": {"maximum": float("nan")}}, "aspect.maximum: a number above 0"),
        ({"aspect": {"maximum": 1.1}}, "aspect.advised: the advised value lies beyond the maximum"),
        ({"width": {"least": "-2 ft"}}, "width.least: a length above 0 is needed here"),
        ({"width": {"least": []}}, "width.least: a length is needed here"),
        ({"width": {"least": "4 ft"}}, "width.advised: the advised value lies beyond the least"),
        ({"area": {"advised": "5", "maximum": 7}}, "area.advised: an area is needed here"),
        ({"area": {"advised": "5 m2"}}, "area.maximum: an area is needed here"),
        ({"span": {"advised": {"time": 30}}}, "span.advised.time: there is no"),
        ({"span": {"advised": {"rows": []}}}, "span.advised.rows: a list of tables is needed"),
        (
            {"span": {"advised": {"rows": [{"from": "6 in", "spans": ["9 ft", "8 ft"]}]}}},
            "span.advised.rows[0].spans: 1 of them are needed, one a column; found 2",
        ),
        (
            {"span": {"advised": {"rows": [
                {"from": "6 in", "spans": ["9 ft"]}, {"from": "4 in", "spans": ["8 ft"]}]}}},
            "span.advised.rows: the rows must stand in order of rising thickness",
        ),
        ({"cut": {"wet": {}}}, "cut.wet: a list of tables is needed here"),
        ({"cut": {"wet": [{"advised": "1/0", "floor": "1 in"}]}}, "cut.wet[0].advised: a number"),
        ({"title": "mine"}, "title: a job cannot change this"),
        ({"aspect": {"source": {"publication": "x", "known": "rumour"}}}, "this is not a way of knowing"),
        ({"aspect": {"source": {"publication": "x", "page": "the shelf"}}}, "this is no page's address"),
    ],
)  # fmt: skip
def test_a_mistake_in_the_users_changes(overrides, sentence):
    told = refused(overrides)
    assert any(sentence in line for line in told), told


def test_all_mistakes_are_told_at_once_with_the_place_that_the_caller_names():
    own = {"aspect": {"maximum": 0}, "width": {"least": "x"}, "angel": {}}
    told = refused(own, place=lambda path: f"job.toml: {path}")
    assert len(told) == 3
    assert all(line.startswith("job.toml: ") for line in told)
