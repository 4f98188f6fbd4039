"""What is offered for one comment: status, reasons, cautions, parts. Knowledge is made up."""

import dataclasses

import pytest

from qa.errors import Missing, NoKnowledge
from qa.measures.parse import find_amounts
from qa.records import Ask, Computed, Figure, Matched, Tally, Understood
from qa.stages.draft import _tally, draft, source_words, tier_words

MASS = Figure("21 g", 21.0, 20.1, 21.9, "g", ("moonflour.fine.bulk-density.moon-tables",), "3 tbsp × 7 g = 21 g")
TEXT = "how many grams is 3 tbsp moonflour?"
ASK = Ask("weight", 0, len(TEXT), TEXT, ("moonflour",), tuple(find_amounts(TEXT)))
ANSWERED = Matched(ASK, "weigh-moonflour", 0.9)


def computed(_ask, _answer):
    return Computed({"mass": MASS, "spoon": MASS}, "", ("moonflour.fine",))


def understood(text=TEXT, asks=(ASK,), kinds=(("question", 0.9),), **more):
    return Understood("c1", text, more.pop("language", "en"), kinds, (), (), asks, **more)


def as_much(_ask, answer):
    return (0.0,) * len(answer.bodies)


def outlined(library, *matched, compute=computed, spoken_of=as_much, tallies=None, **more):
    said = understood(asks=tuple(m.ask for m in matched), **more)
    return draft(said, matched, library, compute, spoken_of, tallies or {})


def test_an_answered_ask_is_drafted_with_its_cautions(moon):
    outline = outlined(moon, ANSWERED)
    assert (outline.status, outline.reasons, outline.cautions) == ("drafted", (), ("M1",))
    assert outline.parts[0].values["first"] == "fine moonflour"
    assert outline.parts[0].values["asked_amount"].theirs
    assert outline.sureness == 0.9


@pytest.mark.parametrize("reason", ["health", "unsafe", "legal", "unsure", "no_knowledge"])
def test_an_ask_without_an_answer_goes_to_a_person_and_the_rest_stands_by(moon, reason):
    other = Matched(dataclasses.replace(ASK, type="health"), None, 0.0, (), reason)
    outline = outlined(moon, other, ANSWERED)
    assert (outline.status, outline.reasons) == ("needs_you", (reason,))
    assert [part.answer for part in outline.parts] == ["weigh-moonflour"]
    assert "fine moonflour" in outline.note or "moonflour" in outline.note


def test_the_most_urgent_reason_comes_first(moon):
    unsure, health = Matched(ASK, None, 0.3), Matched(ASK, None, 0.0, (), "health")
    assert outlined(moon, unsure, health).reasons == ("health", "unsure")


@pytest.mark.parametrize(
    ("fault", "reason"), [(Missing("missing_amount", "x"), "missing_amount"), (NoKnowledge("x"), "no_knowledge")]
)
def test_what_cannot_be_worked_out_is_a_reason_not_a_draft(moon, fault, reason):
    def compute(_ask, _answer):
        raise fault

    outline = outlined(moon, ANSWERED, compute=compute)
    assert (outline.status, outline.reasons, outline.parts) == ("needs_you", (reason,), ())


def test_the_same_answer_is_not_given_twice(moon):
    assert len(outlined(moon, ANSWERED, ANSWERED).parts) == 1


def reworded(library, *bodies):
    """The library whose one answer has other bodies and shows no figure."""
    known = library.knowledge
    answer = dataclasses.replace(library.answer("weigh-moonflour"), bodies=bodies, figures=())
    answers = tuple(answer if one.id == answer.id else one for one in known.answers)
    return dataclasses.replace(library, knowledge=dataclasses.replace(known, answers=answers))


def test_words_that_name_nothing_are_said_once_whatever_is_asked_about(moon):
    """Both asks are of something else, but the answer would read the same."""
    fixed = reworded(moon, "Weigh it.", "Use a scale.")
    other = dataclasses.replace(ANSWERED, ask=dataclasses.replace(ASK, items=("moonflour.fine",)))
    bare = Computed({}, "", ())
    assert len(outlined(fixed, ANSWERED, other, compute=lambda *_: bare).parts) == 1
    named = reworded(moon, "Weigh {{ first }}.", "Use a scale for {{ first }}.")
    assert len(outlined(named, ANSWERED, other, compute=lambda *_: bare).parts) == 2


@pytest.mark.parametrize(
    ("more", "status", "reason"),
    [
        ({"text": "  ", "kinds": ()}, "no_reply", "no_text"),
        ({"text": "buy followers", "kinds": (("spam", 0.99),)}, "no_reply", "spam"),
        ({"text": "lovely", "kinds": (("thanks", 0.9),)}, "no_reply", "nothing_asked"),
        ({"text": "garlic keeps in oil", "kinds": (("tip", 0.9),), "unsafe": ("M1",)}, "no_reply", "unsafe"),
        ({"text": "video says 2, pdf 3", "conflict": "video says 2, pdf 3"}, "needs_you", "recipe_conflict"),
    ],
)
def test_comments_that_ask_nothing(moon, more, status, reason):
    outline = outlined(moon, **more)
    assert (outline.status, outline.reasons) == (status, (reason,))


def test_another_language_is_handed_over_with_what_was_understood(moon):
    outline = outlined(moon, ANSWERED, language="de")
    assert (outline.status, outline.reasons) == ("needs_you", ("other_language",))
    assert outline.matched == (ANSWERED,)


def test_a_medical_background_brings_the_caution(moon):
    known = moon.knowledge.cautions
    medical = dataclasses.replace(known[0], id="S34")
    library = dataclasses.replace(moon, knowledge=dataclasses.replace(moon.knowledge, cautions=(*known, medical)))
    outline = outlined(library, dataclasses.replace(ANSWERED, ask=dataclasses.replace(ASK, medical=True)))
    assert (outline.status, outline.cautions) == ("drafted", ("S34", "M1"))


def test_the_variant_that_speaks_of_what_is_asked_is_taken(moon):
    bodies = moon.answer("weigh-moonflour").bodies
    for place in range(len(bodies)):
        shares = tuple(0.3 if place == own else 0.2 for own in range(len(bodies)))
        assert outlined(moon, ANSWERED, spoken_of=lambda *_, shares=shares: shares).parts[0].body == bodies[place]


def test_a_yes_stands_only_before_what_yes_answers(moon):
    standing = dataclasses.replace(moon.answer("weigh-moonflour"), bodies=("Yes, it works.",))
    answers = tuple(standing if one.id == standing.id else one for one in moon.knowledge.answers)
    library = dataclasses.replace(moon, knowledge=dataclasses.replace(moon.knowledge, answers=answers))
    said = [
        outlined(library, dataclasses.replace(ANSWERED, ask=dataclasses.replace(ASK, text=text))).parts[0].body
        for text in ("how do I use moonflour?", "can I use moonflour?", "moonflour?")
    ]
    assert said == ["It works.", "Yes, it works.", "Yes, it works."]


def test_variants_differ_between_viewers_but_never_by_themselves(moon):
    bodies = {
        draft(dataclasses.replace(understood(), comment=f"c{i}"), (ANSWERED,), moon, computed, as_much, {})
        .parts[0]
        .body
        for i in range(20)
    }
    assert len(bodies) == 2
    assert outlined(moon, ANSWERED).parts[0].body == outlined(moon, ANSWERED).parts[0].body


def test_the_tally_of_reports_or_none_yet(moon):
    none = outlined(moon, ANSWERED).parts[0].values["tally"]
    assert "told us yet" in none.source
    some = (
        outlined(moon, ANSWERED, tallies={"moonflour": Tally("moonflour", ("a", "b"), ("c",))}).parts[0].values["tally"]
    )
    assert [some.values[name].text for name in ("all", "good", "bad")] == ["3", "2", "1"]


def test_source_and_tier_in_words(moon):
    assert source_words(MASS, moon) == moon.source("moon-tables").short or moon.source("moon-tables").citation
    assert tier_words(MASS, moon) == "published"
    assert tier_words(dataclasses.replace(MASS, facts=()), moon) == "by definition"
    assert tier_words(dataclasses.replace(MASS, facts=(*MASS.facts, "reports:moonflour")), moon) == "viewers say"


@pytest.mark.parametrize(("share", "status"), [(0.08, "drafted"), (0.02, "needs_you")])
def test_a_likely_runner_up_takes_the_place_of_an_answer_that_cannot_be_worked_out(moon, share, status):
    known = moon.knowledge.answers
    other = dataclasses.replace(known[0], id="other-answer")
    library = dataclasses.replace(moon, knowledge=dataclasses.replace(moon.knowledge, answers=(*known, other)))

    def compute(ask, answer):
        if answer.id == "weigh-moonflour":
            raise NoKnowledge("nobody weighed it")
        return computed(ask, answer)

    outline = outlined(library, dataclasses.replace(ANSWERED, runners_up=(("other-answer", share),)), compute=compute)
    assert outline.status == status
    assert [part.answer for part in outline.parts] == (["other-answer"] if status == "drafted" else [])


def test_structure_alone_answers_a_plain_ask_whose_type_is_sure(moon):
    """The wording was strange, but an amount of something that was weighed is no riddle."""
    general = dataclasses.replace(
        moon.answer("weigh-moonflour"), id="weigh-any", about=("any",), figures=(("mass", "weigh asked of first"),)
    )
    known = moon.knowledge
    library = dataclasses.replace(moon, knowledge=dataclasses.replace(known, answers=(*known.answers, general)))
    unsure = Matched(ASK, None, 0.3, (), "unsure")
    assert [part.answer for part in outlined(library, unsure).parts] == ["weigh-any"]
    doubtful = dataclasses.replace(unsure, ask=dataclasses.replace(ASK, sureness=0.6))
    assert outlined(library, doubtful).reasons == ("unsure",)
    by_weight = dataclasses.replace(ASK, amounts=tuple(find_amounts("100 g moonflour")))
    assert outlined(library, dataclasses.replace(unsure, ask=by_weight)).reasons == ("unsure",)


def test_reports_are_told_of_what_is_new_to_the_recipe_and_named(moon):
    """Of "starflour instead of moonflour" reports on starflour count; what is not counted by ingredient says so."""
    known = {"moonflour": Tally("moonflour", ("a", "b"), ("c",)), "starflour": Tally("starflour", ("d",))}
    both = Ask("tried", 0, 1, "?", ("moonflour.fine", "starflour"))
    told = _tally(both, known, moon)
    assert (told.values["all"].text, told.values["named"]) == ("1", moon.name("starflour"))
    assert "Nobody" in _tally(both, {"moonflour": known["moonflour"]}, moon).source
    assert "no count" in _tally(Ask("tried", 0, 1, "?"), known, moon).source
