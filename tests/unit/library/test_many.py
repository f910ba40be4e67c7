"""Many slabs asked for by a program."""

from concurrent.futures import ThreadPoolExecutor

import pytest

import kerfline
from boathouses import boathouse_file
from kerfline.library.many import lay_out_one


@pytest.fixture(scope="module")
def with_day(tmp_path_factory):
    return boathouse_file(tmp_path_factory.mktemp("day"))


def test_many_are_written_and_summed_up(with_day, tmp_path):
    told = []
    done = kerfline.write_many([with_day, tmp_path / "no.toml"], tmp_path / "out", workers=1,
                               tell=lambda *words: told.append(words))  # fmt: skip
    assert done.status == 2
    assert [words[:2] for words in told] == [(1, 2), (2, 2)]
    assert {p.name for p in done.files} == {"summary.csv", "summary.pdf", "summary.svg"}
    assert (tmp_path / "out" / "boathouse" / "boathouse-layout.json").is_file()


def test_many_come_back_in_order(tmp_path):
    sizes = [f"{width} ft x 12 ft" for width in (40, 10, 30, 20)]
    options = kerfline.Options(thickness="4 in")
    with ThreadPoolExecutor(2) as threads:
        done = kerfline.lay_out_many(
            [*sizes, tmp_path / "no.toml"], executor=threads, options=options
        )
    alone = [kerfline.lay_out(size, thickness="4 in") for size in sizes]
    assert [r.to_dict() for r in done[:-1]] == [r.to_dict() for r in alone]
    assert isinstance(done[-1], kerfline.Refusal)
    assert "there is no such" in done[-1].message


@pytest.mark.long
def test_a_cluster_gives_the_same_in_the_same_order():
    distributed = pytest.importorskip("distributed")
    sizes = [f"{width} ft x 18 ft" for width in range(20, 44, 2)]
    options = kerfline.Options(thickness="4 in")
    with (
        distributed.LocalCluster(
            n_workers=2, threads_per_worker=1, dashboard_address=None
        ) as cluster,
        distributed.Client(cluster) as client,
    ):
        done = kerfline.lay_out_many(sizes, executor=client.get_executor(), options=options)
    alone = [kerfline.lay_out(size, thickness="4 in") for size in sizes]
    assert [r.to_dict() for r in done] == [r.to_dict() for r in alone]


def test_what_is_wrong_with_one_is_its_answer():
    refused = lay_out_one(("nowhere.toml", kerfline.Options()))
    assert isinstance(refused, kerfline.Refusal)
    assert refused.source == "nowhere.toml"
    assert lay_out_one(("20 ft x 10 ft", kerfline.Options(thickness="4 in"))).clean
