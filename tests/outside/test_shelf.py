"""What was made once is kept by the hash of what it was made from; nothing that happens to the shelf is a fault."""

import os
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from threading import Barrier
from time import sleep

from qa.outside.shelf import content_key, remembered


def test_it_is_made_once(tmp_path: Path):
    made = []

    def make() -> list[int]:
        made.append(1)
        return [1, 2]

    assert [remembered("made", "k", make, tmp_path) for _ in range(3)] == [[1, 2]] * 3
    assert len(made) == 1


def test_a_damaged_shelf_is_made_anew(tmp_path: Path):
    remembered("made", "k", lambda: 1, tmp_path)
    next(tmp_path.glob("made-k.pickle")).write_bytes(b"torn")
    assert remembered("made", "k", lambda: 2, tmp_path) == 2
    assert remembered("made", "k", lambda: 3, tmp_path) == 2


def test_a_shelf_that_cannot_be_written_only_costs_time(tmp_path: Path):
    (tmp_path / "file").write_text("no folder")
    assert remembered("made", "k", lambda: 4, tmp_path / "file" / "below") == 4


def test_only_the_newest_are_kept(tmp_path: Path):
    for i in range(12):
        remembered("made", f"k{i}", lambda: 0, tmp_path)
    assert len(list(tmp_path.glob("*.pickle"))) == len(list(tmp_path.glob("*.lock"))) == 4


def test_each_kind_is_kept_whatever_is_made_of_another_and_what_is_used_stays(tmp_path: Path):
    remembered("model", "old", lambda: 1, tmp_path)
    os.utime(tmp_path / "model-old.pickle", (1, 1))
    for i in range(9):
        remembered("knowledge", f"k{i}", lambda: 0, tmp_path)
    assert remembered("model", "old", lambda: 2, tmp_path) == 1
    assert (tmp_path / "model-old.pickle").stat().st_mtime > 1


def test_who_wants_the_same_at_once_waits_for_it(tmp_path: Path):
    made, begun = [], Barrier(3)

    def make() -> str:
        made.append(1)
        sleep(0.2)
        return "it"

    def want() -> str:
        begun.wait()
        return remembered("made", "k", make, tmp_path)

    with ThreadPoolExecutor(3) as side_by_side:
        assert [one.result() for one in [side_by_side.submit(want) for _ in range(3)]] == ["it"] * 3
    assert len(made) == 1


def test_the_key_is_that_of_the_content():
    assert content_key([b"a", b"b"]) == content_key([b"a", b"b"])
    assert len({content_key(parts) for parts in ([b"a", b"b"], [b"ab"], [b"b", b"a"], [])}) == 4
