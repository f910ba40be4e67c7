"""Lines of keys in a TOML text."""

import tomllib

from hypothesis import given
from hypothesis import strategies as st

from kerfline.files.job_locate import Places, dotted, lines_of

TEXT = '''\
# a comment with [brackets] and "quotes"
[job]
name = "a # [b] = c"  # another
plan.north = 'q'

[[wall]]
path = [[0, 1], # first
  ["12'-6\\" ", 2],
]
[[wall]]
box = { a = 1, b = [ {c = 2}, ] }
text = """
multi ] "quoted" = \\"""
"""
when = 1979-05-27T07:32:00Z
[wall.sub]
"quoted key" = 1
'''


def test_every_key_stands_on_its_line():
    found = {dotted(key): line for key, line in lines_of(TEXT).items()}
    assert found["job"] == 2
    assert found["job.name"] == 3
    assert found["job.plan.north"] == 4
    assert found["wall[0]"] == 6
    assert found["wall[0].path[0][1]"] == 7
    assert found["wall[0].path[1]"] == 8
    assert found["wall[1]"] == 10
    assert found["wall[1].box.b[0].c"] == 11
    assert found["wall[1].when"] == 15
    assert found["wall[1].sub.quoted key"] == 17


def test_a_place_names_file_line_and_key():
    places = Places("job.toml", lines_of(TEXT))
    assert places.of(("wall", 0, "path", 1)) == "job.toml line 8, wall[0].path[1]"


def test_the_place_of_a_missing_key_is_that_of_its_table():
    places = Places("job.toml", lines_of(TEXT))
    assert places.of(("wall", 1, "thickness")) == "job.toml line 10, wall[1].thickness"
    assert places.of(("slab", "thickness")) == "job.toml, slab.thickness"


def keys_of(value, path=()):
    """Every path in parsed TOML."""
    items = value.items() if isinstance(value, dict) else enumerate(value)
    for key, inner in items:
        yield (*path, key)
        if isinstance(inner, dict | list):
            yield from keys_of(inner, (*path, key))


plain_keys = st.text(st.sampled_from("abz_-09"), min_size=1, max_size=4)
scalars = st.one_of(
    st.integers(-9, 9),
    st.booleans(),
    st.sampled_from(["", "x", "] }", '"', "'", "#", "a = b", "\n[no]\n"]),
)
values = st.recursive(
    scalars,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(plain_keys, inner, max_size=3),
    max_leaves=8,
)


@given(st.dictionaries(plain_keys, values, max_size=4))
def test_the_reader_finds_the_same_keys_as_the_standard_library(tables):
    import tomlkit

    text = tomlkit.dumps(tables)
    assert set(lines_of(text)) == set(keys_of(tomllib.loads(text)))
