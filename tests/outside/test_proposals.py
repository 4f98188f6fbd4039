"""Proposals lie inside the knowledge folder and count for nothing there."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from qa.knowledge.load import load_knowledge, stamp
from qa.outside import proposals

GOOD = Path(__file__).parents[1] / "knowledge" / "good"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A copy of the made-up knowledge."""
    return Path(shutil.copytree(GOOD, tmp_path / "knowledge"))


def test_nothing_proposed_is_read_as_knowledge(folder: Path) -> None:
    """Not even whole files, wrong files or files that clash with what is known."""
    before, _ = load_knowledge(folder)
    seen = stamp(folder)
    for name in ("ingredients/moonflour.yaml", "answers/weigh-moonflour.md", "sources.yaml", "trials/moon-spoons.yaml"):
        proposals.put(folder, name, (folder / name).read_text().replace("7 g/us_tbsp", "70 g/us_tbsp"))
    proposals.put(folder, "ingredients/broken.yaml", "id: [")
    after, problems = load_knowledge(folder)
    assert problems == ()
    assert after.counts() == before.counts()
    assert {f.id: f.version for f in after.knowledge.facts} == {f.id: f.version for f in before.knowledge.facts}
    assert stamp(folder) == seen


def test_what_somebody_began_to_fill_in_stays(folder: Path) -> None:
    """A second run leaves it as it is and says so."""
    assert proposals.put(folder, "names/x.yaml", "first\n")
    assert not proposals.put(folder, "names/x.yaml", "second\n")
    assert (folder / "proposed/names/x.yaml").read_text() == "first\n"


def test_quotes_of_a_viewer_can_be_taken_out(folder: Path) -> None:
    """From comment lines and lists, the words of others and all keys left alone."""
    proposals.put(
        folder,
        "answers/x.md",
        '---\n# To fill in. Asked 2 times\nid: x\nphrasings:\n  - "my \\"moon\\" bread, Anna"\n  - "moon?"\n---\n',
    )
    proposals.put(folder, "facts/y.yaml", "# To fill in: how long for my Anna\n# how long, all told\n#  - form: z\n")
    proposals.put(folder, "names/z.yaml", '# z\n#   is moonflower for Anna\n  - "moonflower"  # 2 times\n')
    theirs = ['so: my "moon"\nbread, Anna. ok', "how long  for my Anna", "is moonflower for Anna"]
    assert proposals.without(folder, theirs) == 3
    whole = "".join(path.read_text() for path in (folder / "proposed").rglob("*.*"))
    assert "Anna" not in whole
    assert '  - "moon?"\n' in whole
    assert "# how long, all told\n#  - form: z\n" in whole
    assert '  - "moonflower"  # 2 times\n' in whole


def test_forgetting_where_nothing_is_proposed(folder: Path) -> None:
    """Is no fault."""
    assert proposals.without(folder, ["anything"]) == 0
