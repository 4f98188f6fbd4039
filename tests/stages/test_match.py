"""Standing answers compete for an ask; below the cut-off and beyond the limits there is a reason instead."""

from dataclasses import replace

import numpy as np
import pytest

from qa.knowledge.library import Library
from qa.knowledge.load import load_knowledge
from qa.measures.parse import find_amounts
from qa.records import Ask, AskType, Matched, Mention, Understood
from qa.settings import Settings, shipped
from qa.stages.match import _TOLD_FROM, AnswerModel, Ranked, _wanted, learn_answers, match
from qa.stages.match.evidence import _ahead, _swap_known, candidates
from qa.stages.match.fit import AROUND, BARRED, SAID, UNSAID, fit, met
from qa.stages.match.wording import worded
from qa.workbench import Workbench


@pytest.fixture(scope="module")
def library() -> Library:
    return load_knowledge(shipped("knowledge"))[0]


@pytest.fixture(scope="module")
def model() -> AnswerModel:
    """As the labelled comments teach it; without them it is far less sure."""
    return Workbench.starter().models.answers  # type: ignore[no-any-return]


def matched(
    ask: Ask, library: Library, model: AnswerModel, *, mentions: tuple[Mention, ...] = (), language: str = "en"
) -> Matched:
    one = Understood("1", ask.text, language, (("question", 1.0),), (), mentions, (ask,))
    ((found,),) = match([one], library, model, Settings())
    return found


def asked(kind: AskType, text: str, *names: tuple[str, str]) -> tuple[Ask, tuple[Mention, ...]]:
    """An ask, and its mentions, from a text and the (name, item) pairs in it."""
    mentions = []
    for name, item in names:
        ingredient, _, form = item.partition(".")
        start = text.index(name)
        mentions.append(Mention(start, start + len(name), name, ingredient, form))
    items = tuple(item for _, item in names)
    return Ask(kind, 0, len(text), text, items, tuple(find_amounts(text))), tuple(mentions)


@pytest.mark.parametrize(
    ("kind", "text", "names", "answer"),
    [
        ("weight", "how many grams is 3 tbsp ground flax", [("ground flax", "flax.ground")], "weigh-any"),
        ("weight", "how many grams in a cup", [], "measure-without-ingredient"),
        ("tried", "has anyone tried this with sorghum", [("sorghum", "sorghum")], "tried-any"),
        ("same_thing", "is cornflour the same as corn flour",
         [("cornflour", "maize.starch"), ("corn flour", "maize.flour")], "cornflour-or-corn-flour"),
    ],
)  # fmt: skip
def test_the_answer_of_the_type_and_subject_wins(
    kind: AskType, text: str, names: list[tuple[str, str]], answer: str, library: Library, model: AnswerModel
) -> None:
    ask, mentions = asked(kind, text, *names)
    found = matched(ask, library, model, mentions=mentions)
    assert (found.answer, found.reason) == (answer, "")
    assert found.sureness >= (_TOLD_FROM if answer == "tried-any" else Settings().draft_from)
    assert answer not in {runner for runner, _ in found.runners_up}


@pytest.mark.parametrize(
    ("kind", "text", "reason"),
    [
        ("health", "how many grams is 3 tbsp", "health"),
        ("weight", "is a spoon of it a day safe with my blood pressure pills", "health"),
        ("allergy", "can my daughter with a nut allergy have one", "health"),
        ("other", "do I need a licence to sell these at the market", "legal"),
        ("safety", "left it on the counter overnight, is it still safe", "unsafe"),
        ("storage", "can I can the pumpkin filling in jars", "unsafe"),
        ("other", "is the flour milled in a facility that does sesame", "maker"),
    ],
)
def test_what_is_left_to_others_gets_no_answer(
    kind: AskType, text: str, reason: str, library: Library, model: AnswerModel
) -> None:
    found = matched(asked(kind, text)[0], library, model)
    assert (found.answer, found.reason) == (None, reason)


def test_other_languages_are_handed_over(library: Library, model: AnswerModel) -> None:
    found = matched(asked("weight", "how many grams in a cup")[0], library, model, language="de")
    assert (found.answer, found.reason) == (None, "other_language")


@pytest.mark.parametrize(
    ("kind", "text", "items", "reason"),
    [
        ("swap", "would zanzu flour bind this", ("zanzu.flour",), "unknown_ingredient"),
        ("other", "qqq zzz", (), "no_knowledge"),
    ],
)
def test_nothing_known_has_its_reason(
    kind: AskType, text: str, items: tuple[str, ...], reason: str, library: Library, model: AnswerModel
) -> None:
    found = matched(replace(asked(kind, text)[0], items=items), library, model)
    assert found.answer is None
    assert found.reason in {reason, "unsure"}


@pytest.mark.parametrize(("name", "item"), [("ghee", "ghee"), ("margarine", "margarine"), ("lard", "lard")])
def test_what_may_be_used_is_not_answered_by_what_to_use_in_its_place(
    name: str, item: str, library: Library, model: AnswerModel
) -> None:
    offered = {}
    for text in (f"can I use {name} for this?", f"what can I use instead of {name}?"):
        ask, mentions = asked("swap", text, (name, item))
        found = matched(ask, library, model, mentions=mentions)
        offered[text[:4]] = {found.answer, *(answer for answer, _ in found.runners_up)}
    assert f"{item}-what-instead" in offered["what"]
    assert f"{item}-what-instead" not in offered["can "]


def test_a_higher_bar_keeps_silent(library: Library, model: AnswerModel) -> None:
    ask, mentions = asked("weight", "how many grams is 3 tbsp ground flax", ("ground flax", "flax.ground"))
    one = Understood("1", ask.text, "en", (("question", 1.0),), (), mentions, (ask,))
    ((found,),) = match([one], library, model, replace(Settings(), draft_from=1.01))
    assert (found.answer, found.reason) == (None, "unsure")
    assert found.runners_up[0][0] == "weigh-any"


def test_an_answer_about_another_form_does_not_fit(moon: Library) -> None:
    answer = moon.answer("weigh-moonflour")
    asks = [
        Ask("weight", 0, 1, "", (item,))
        for item in ("moonflour.fine", "moonflour", "moonflour.coarse", "starflour.white")
    ]
    exact, usual, other_form, other = (fit(ask, answer, moon) for ask in asks)
    assert exact > usual > other_form == other == 0


def test_without_standing_answers_there_is_nothing_to_say(library: Library) -> None:
    empty = Library(replace(library.knowledge, answers=()))
    found = matched(asked("weight", "grams in a cup?")[0], empty, learn_answers(empty))
    assert (found.answer, found.runners_up) == (None, ())


def test_the_same_library_gives_the_same_matches(moon: Library) -> None:
    ask = asked("weight", "how many grams is a tablespoon of moonflour", ("moonflour", "moonflour"))[0]
    assert matched(ask, moon, learn_answers(moon)) == matched(ask, moon, learn_answers(moon))


@pytest.mark.parametrize(
    ("text", "far"),
    [
        ("gluten-free cake, what flour", SAID),
        ("gluten free cupcakes, what flour", UNSAID),  # a cupcake is no cake, "cakes" are
        ("what flour for gluten free cakes", SAID),
        ("what flour for cakes", UNSAID),
        ("what flour for gluten free cakes, not cheesecakes", BARRED),
        ("gluten free cake in a tin, what flour", BARRED),
        ("gluten free cake, what is the tingle", SAID),
    ],
)
def test_an_answer_looks_for_the_dish_and_the_words_it_wants(text: str, far: float, library: Library) -> None:
    """Words count from their beginning, whatever stands between them; the condition least met decides."""
    when = (("dish", "cake, not cheesecake, not tin"), ("says", "gluten free"))
    answer = replace(library.answer("swap-any"), when=when)
    assert met(Ask("swap", 0, len(text), text), answer) == far


def test_what_was_understood_to_be_baked_rules_other_dishes_out(library: Library) -> None:
    answer = replace(library.answer("swap-any"), when=(("dish", "cake"),))
    ask = Ask("swap", 0, 25, "which coarse flour browns", context="which coarse flour browns? the cake was dry")
    assert met(ask, answer) == AROUND
    assert met(replace(ask, dish="scones"), answer) == BARRED
    assert met(replace(ask, dish="cake"), answer) == SAID


def test_the_answer_for_any_swap_gives_way_to_one_for_the_two(library: Library, model: AnswerModel) -> None:
    names = [("gelatin", "gelatin"), ("agar", "agar")]
    ask, mentions = asked("swap", "gelatin for agar, how much?", *names)
    assert model.wording
    near = model.wording.near([worded(ask, mentions, ask.text)])

    def found(known: Library) -> set[str]:
        own = candidates(ask, known, near, 0, lambda places: np.zeros((len(places), 6), dtype=np.float32))
        return {known.knowledge.answers[one.place].id for one in own}

    assert "agar-for-gelatin" in found(library)
    assert "swap-any" not in found(library)
    cakes_only = tuple(
        replace(one, when=(("dish", "cake"),)) if "gelatin" in one.about and "agar" in one.about else one
        for one in library.knowledge.answers
    )
    assert "swap-any" in found(replace(library, knowledge=replace(library.knowledge, answers=cakes_only)))


@pytest.mark.parametrize(
    ("text", "swapped"), [("butter for oil in muffins", True), ("no-knead loaf without butter or oil", False)]
)
def test_who_wants_neither_is_not_told_how_to_swap_them(text: str, swapped: bool, library: Library) -> None:
    ask, _ = asked("swap", text, ("butter", "butter"), ("oil", "oil"))
    assert _swap_known(ask, library) is swapped


def test_less_sureness_will_do_for_what_viewers_reported(library: Library) -> None:
    firsts = (("tried-any", "tried"), ("tried-any", "purpose"), ("weigh-any", "weight"))
    wanted = [_wanted(Ranked(answer, 0.5, kind), library, Settings()) for answer, kind in firsts]
    assert wanted == [_TOLD_FROM, Settings().draft_from, Settings().draft_from]
    assert _wanted(Ranked("tried-any", 0.5, "tried"), library, Settings(draft_from=0.3)) == 0.3


def test_how_far_an_answer_is_ahead_is_told_from_the_best_of_the_others() -> None:
    assert _ahead(np.array([0.2, 0.9, 0.6], dtype=np.float32)).tolist() == pytest.approx([-0.7, 0.3, -0.3])
    assert _ahead(np.array([0.5], dtype=np.float32)).tolist() == [0.5]
