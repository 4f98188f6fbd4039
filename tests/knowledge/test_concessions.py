"""What a person must judge is told by its grammar; the motive beside a question of baking is none of it."""

import pytest

from qa.knowledge.limits import cause_asked, hazard_asked, health_asked, legal_asked, motive_only


@pytest.mark.parametrize(
    "comment",
    [
        "could I hide my zinc capsules in the brownies",
        "would one slice hurt on his new diet",
        "is two muffins a day alright, I live on them",
        "I'm 22 weeks, can I eat the tiramisu",
    ],
)
def test_doses_medicines_and_one_slice_go_to_a_person(comment: str) -> None:
    assert health_asked(comment, comment)


@pytest.mark.parametrize(
    "comment",
    ["my little one coughed over the batter, is it still ok", "can I sous vide the curd in jars and shelve it"],
)
def test_what_got_into_it_and_untested_keeping_go_to_a_person(comment: str) -> None:
    assert hazard_asked(comment, comment)


def test_a_food_register_is_a_matter_of_law() -> None:
    assert legal_asked("do home bakers need a hygiene certificate?")


def test_why_a_bake_failed_is_no_question_of_the_body_unless_a_body_felt_it() -> None:
    assert not health_asked("what did I do wrong?", "coeliac here, my loaf sank. what did I do wrong?")
    assert cause_asked("what did I do wrong?", "my loaf sank. what did I do wrong?")
    assert not cause_asked("what did I do wrong?", "my loaf sank and my throat swelled. what did I do wrong?")


@pytest.mark.parametrize(
    "piece", ["coeliac here", "IBS so no onion", "my gran is diabetic", "doctor wants me off salt"]
)
def test_what_only_tells_why_is_no_question(piece: str) -> None:
    assert motive_only(piece)


@pytest.mark.parametrize(
    "piece", ["is it ok for my diabetic gran?", "she came out in hives", "our pug ate the raisin loaf", "the loaf sank"]
)
def test_what_asks_or_alarms_is_more_than_a_motive(piece: str) -> None:
    assert not motive_only(piece)


def test_drink_in_a_bake_for_those_who_have_none_goes_to_a_person() -> None:
    assert health_asked("does the beer bake out?", "my friend is in recovery. does the beer bake out?")
    assert not health_asked("what instead of rum?", "the kids will eat it, what instead of rum?")


def test_whose_hens_laid_the_eggs_makes_no_question_of_an_animal() -> None:
    comment = "do you have to weigh the eggs, ok? mine are from our own hens and every size"
    assert not health_asked("do you have to weigh the eggs, ok?", comment)
    assert health_asked("is that ok?", "our own hens had some of the raw dough. is that ok?")
