"""Grouping of any texts, on titles made up here."""

from itertools import permutations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from qa.stages.group import group_texts
from qa.stages.group.sharpen import _surest, sharpened

# Words of six made-up crafts, the craft's name first, and words that all of them share.
CRAFTS = [
    "pottery clay glaze kiln wheel slip bisque",
    "weaving loom warp weft shuttle heddle selvedge",
    "beekeeping hive queen swarm nectar smoker brood",
    "sailing mast jib tack keel rudder halyard",
    "cycling wheel brake chain gear saddle spoke",
    "gardening compost seed prune hedge trowel slip",
]
SHARED = (
    "start clean old broken best cheap weight tool finish small cold storage wet repair colour size new water".split()
)


def titles(count: int, crafts: int, seed: int) -> tuple[list[str], list[int]]:
    """Titles that name their craft seven times in ten, with a word or two of it and two or three that all share."""
    random = np.random.default_rng(seed)
    texts, truth = [], []
    for _ in range(count):
        craft = int(random.integers(crafts))
        name, *own = CRAFTS[craft].split()
        words = [*random.choice(own, int(random.integers(1, 3))), *random.choice(SHARED, int(random.integers(2, 4)))]
        if random.random() < 0.7:
            words.append(name)
        texts.append("how to " + " ".join(random.permutation(words)))
        truth.append(craft)
    return texts, truth


def right(truth: list[int], groups: list[int]) -> float:
    """The share that agrees under the best pairing of groups with crafts, by trying all pairings."""
    table = np.zeros((6, 6))
    np.add.at(table, (truth, groups), 1)
    return max(sum(table[i, j] for i, j in enumerate(order)) for order in permutations(range(6))) / len(truth)


def test_titles_of_one_craft_are_one_group():
    texts, truth = titles(1200, 6, seed=1)
    assert right(truth, group_texts(texts, 6)) > 0.93


@pytest.mark.parametrize(("crafts", "count"), [(3, 600), (6, 1200)])
def test_the_number_of_groups_is_found(crafts, count):
    texts, truth = titles(count, crafts, seed=2)
    groups = group_texts(texts)
    assert max(groups) + 1 == crafts
    assert right(truth, groups) > 0.9


def test_texts_about_one_thing_stay_together():
    """Words drawn at random from one bag show no groups."""
    random = np.random.default_rng(3)
    assert set(group_texts([" ".join(random.choice(SHARED, 4)) for _ in range(400)])) == {0}


@pytest.mark.parametrize(("crafts", "fewest"), [(2, 0.95), (6, 0.85)])
def test_texts_that_were_not_looked_at_join_by_their_words(crafts, fewest, monkeypatch):
    """Of 1,200 titles 600 are looked at; the rest, taken alone, are grouped nearly as well."""
    monkeypatch.setattr("qa.stages.group.texts._LOOKED_AT", 600)
    texts, truth = titles(1200, crafts, seed=10)
    groups = group_texts(texts, crafts)
    order = sorted(range(1200), key=texts.__getitem__)
    rest = [order[place] for place in sorted({*range(1200)} - {*np.linspace(0, 1199, 600).astype(int).tolist()})]
    assert right([truth[place] for place in rest], [groups[place] for place in rest]) > fewest


def test_another_order_gives_the_same_groups():
    texts, _ = titles(300, 6, seed=4)
    order = np.random.default_rng(5).permutation(300)
    one, other = group_texts(texts, 6), group_texts([texts[i] for i in order], 6)
    pairs = {(one[place], group) for place, group in zip(order, other, strict=True)}
    assert len(pairs) == len(set(one)) == len(set(other))


def test_sharpening_takes_strays_home():
    """Of 1,200 titles three in ten are put in any group at first; their words take nearly all of them back."""
    texts, truth = titles(1200, 6, seed=8)
    random = np.random.default_rng(9)
    strayed = np.where(random.random(1200) < 0.3, random.integers(6, size=1200), truth)
    assert np.mean(strayed == truth) < 0.8
    everywhere, nowhere = np.arange(1200), np.zeros((1200, 3), dtype=np.float32)
    assert np.mean(sharpened(texts, everywhere, strayed, nowhere) == truth) > 0.95


def test_two_groups_are_left_as_they_are():
    groups = np.array([0, 1, 0, 1])
    texts, meant = ["clay kiln", "loom weft", "kiln clay", "weft loom"], np.eye(4, dtype=np.float32)
    assert sharpened(texts, np.arange(4), groups, meant).tolist() == groups.tolist()


def test_the_surest_of_each_group_are_learned_and_no_large_group_outweighs_the_rest():
    """Of ten, six and four: four fifths, and at most nine tenths of a third of all twenty, which is six."""
    groups, sure = np.repeat([0, 1, 2], [10, 6, 4]), np.arange(20.0)
    assert _surest(groups, sure, 3).tolist() == [4, 5, 6, 7, 8, 9, 12, 13, 14, 15, 17, 18, 19]


@settings(max_examples=30, deadline=None)
@given(st.lists(st.text(max_size=25), max_size=12), st.one_of(st.none(), st.integers(1, 5)))
def test_any_texts_have_a_group_each(texts, wanted):
    groups = group_texts(texts, wanted)
    assert len(groups) == len(texts)
    assert list(dict.fromkeys(groups)) == list(range(len(set(groups))))
    assert wanted is None or len(set(groups)) <= wanted
    same = {}
    assert all(same.setdefault(text, group) == group for text, group in zip(texts, groups, strict=True))


def test_fewer_kinds_than_groups():
    assert group_texts(["same words", "same words", "others"], 5) == [0, 0, 1]
    assert group_texts(["", "", " "], 2) == [0, 0, 0]
    assert group_texts([], 3) == []


def test_less_than_one_group_is_refused():
    with pytest.raises(ValueError, match="ask for 1 or more"):
        group_texts(["a"], 0)
