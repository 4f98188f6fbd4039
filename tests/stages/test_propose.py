"""What comments ask and the knowledge lacks becomes files to fill in, most asked first, the same each time."""

from __future__ import annotations

from pathlib import Path

import pytest

from qa.knowledge.library import Library
from qa.knowledge.load import load_knowledge
from qa.records import Ask, AskType, Comment, Draft, Matched, Mention, Said, Understood
from qa.stages.propose import NEARLY, Proposal, propose


def said(
    key: str,
    text: str,
    *mentions: tuple[str, str],
    kind: AskType = "swap",
    reason: str = "unsure",
    near: tuple[tuple[str, float], ...] = (),
) -> Said:
    """A comment that is one ask, with what it mentions (words and item) and the answers that came nearest."""
    found = []
    for words, item in mentions:
        ingredient, _, form = item.partition(".")
        start = text.lower().index(words)
        found.append(Mention(start, start + len(words), text[start : start + len(words)], ingredient, form))
    ask = Ask(kind, 0, len(text), text, tuple(item for _, item in mentions))
    matched = Matched(ask, None, 0.2, near, reason)
    understood = Understood(key, text, "en", (("question", 0.9),), (), tuple(found), (ask,))
    return Said(Comment(key, text, "viewer"), understood, Draft(key, "needs_you", (reason,), matched=(matched,)))


def files(proposals: tuple[Proposal, ...]) -> list[tuple[int, str]]:
    """How many ask, and the file."""
    return [(len(one.comments), one.file) for one in proposals]


UNKNOWN = [
    said("a", "does Cometflour work?", ("cometflour", "cometflour"), reason="unknown_ingredient"),
    said("b", "has anyone tried cometflour", ("cometflour", "cometflour"), kind="tried", reason="unknown_ingredient"),
    said("c", "and marsmeal?", ("marsmeal", "marsmeal"), reason="unknown_ingredient"),
]


def test_unknown_ingredients_by_demand(moon: Library) -> None:
    """Two ask for one, one for the other; each file quotes those who ask."""
    found = propose(UNKNOWN, moon, least=1)
    assert files(found) == [(2, "ingredients/cometflour.yaml"), (1, "ingredients/marsmeal.yaml")]
    assert "#   does Cometflour work?\n#   has anyone tried cometflour\n" in found[0].text
    assert files(propose(UNKNOWN, moon)) == files(found)[:1]
    assert propose(UNKNOWN[::-1], moon, least=1)[0].file == found[0].file


def test_a_proposal_filled_in_and_moved_is_known(moon: Library, tmp_path: Path) -> None:
    """That is what it is for."""
    import shutil

    folder = tmp_path / "knowledge"
    shutil.copytree(Path(__file__).parents[1] / "knowledge" / "good", folder)
    (one,) = propose(UNKNOWN, moon)
    (folder / one.file).write_text(one.text.replace("family: ", "family: flour "))
    library, problems = load_knowledge(folder)
    assert problems == ()
    assert library.has("cometflour")


def test_names_people_type(moon: Library) -> None:
    """What is no name yet is proposed; a known name, a plural and a mere word of a name are not."""
    typed = ["moonflower", "moonflower", "moon flour", "moonflours", "coarse"]
    heard = [said(str(i), f"is {word} ok", (word, "moonflour.coarse"), reason="x") for i, word in enumerate(typed)]
    (one,) = propose(heard, moon)
    assert one.file == "names/moonflour.coarse.yaml"
    assert one.comments == ("0", "1")
    assert '  - "moonflower"  # 2 times\n' in one.text
    assert "#   is moonflower ok\n" in one.text


def test_a_question_on_a_known_thing_that_nothing_met(moon: Library) -> None:
    """One file for each thing asked; the nearest answers are named in it."""
    asked = [
        said(key, text, ("moonflour", "moonflour"), kind="purpose", near=(("weigh-moonflour", NEARLY - 0.1),))
        for key, text in (("a", "why moonflour?"), ("b", "what does moonflour do"))
    ]
    (one,) = propose(asked, moon)
    assert one.file == "answers/purpose-moonflour.md"
    assert "# nearest answers: weigh-moonflour\n" in one.text
    assert "asks: [purpose]\nabout: [moonflour]\n" in one.text
    assert '  - "what does moonflour do"\n' in one.text


def test_an_asking_that_nearly_matched_goes_to_that_answer(moon: Library) -> None:
    """As phrasings to add; below the line it is a guess and becomes a question of its own."""
    near = (("weigh-moonflour", NEARLY + 0.1),)
    asked = [said(key, f"moonflour by the spoon {key}", ("moonflour", "moonflour"), kind="weight", near=near)
             for key in "ab"]  # fmt: skip
    (one,) = propose(asked, moon)
    assert one.file == "phrasings/weigh-moonflour.yaml"
    assert '  - "moonflour by the spoon a"\n  - "moonflour by the spoon b"\n' in one.text


def test_a_sum_that_lacks_its_fact(moon: Library) -> None:
    """Nobody has given how long coarse moonflour keeps."""
    asked = [said(key, f"how long does moonflour keep {key}", ("moonflour", "moonflour.coarse"), kind="storage",
                  reason="no_knowledge") for key in "ab"]  # fmt: skip
    (one,) = propose(asked, moon)
    assert one.file == "facts/moonflour.coarse.storage-life.yaml"
    assert "#    property: storage life\n" in one.text
    assert "how long does moonflour keep b" in one.text


@pytest.mark.parametrize("reason", ["health", "safety", "allergy", "missing_amount", "unsafe", "other_language"])
def test_what_needs_a_person_is_not_proposed(moon: Library, reason: str) -> None:
    """No standing answer can be grown from it."""
    asked = [said(key, "is moonflour ok for me", ("moonflour", "moonflour"), reason=reason) for key in "ab"]
    assert propose(asked, moon) == ()


@pytest.mark.parametrize("kind", ["health", "safety", "allergy"])
def test_nor_an_ask_about_health(moon: Library, kind: AskType) -> None:
    """Even where the reason is only that no answer was sure enough."""
    asked = [said(key, "is moonflour ok for me", ("moonflour", "moonflour"), kind=kind) for key in "ab"]
    assert propose(asked, moon) == ()


def test_hostile_words_make_no_path(moon: Library) -> None:
    """A file name is made of letters, digits and hyphens, whatever was typed; a name without them makes none."""
    asked = [
        said("a", "use ../../etc/passwd flour", ("../../etc/passwd flour", "../../etc"), reason="x"),
        said("b", "use 面粉", ("面粉", "面粉"), reason="x"),
    ]
    assert files(propose(asked, moon, least=1)) == [(1, "ingredients/etc-passwd-flour.yaml")]
