"""Sheets to print, and files of readings that load once they are filled in."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from qa.knowledge.load import load_knowledge
from qa.stages import vouch
from qa.trials.compare import equal_weights
from qa.trials.designs import Open, plan
from qa.trials.readings import read
from qa.trials.screening import effects, screening_plan
from qa.trials.sheets import readings_file, sheet, text_of

ITEMS = ("flax.ground", "chia.ground")
NAMES = {"flax.ground": "ground flaxseed", "chia.ground": "ground chia seed"}
TYPES = ("swap", "weight", "convert", "colour", "storage", "went_wrong", "other")


def question(type_, items=ITEMS):
    return Open("flax-or-chia", "flax or chia", type_, items, 4, (1, 3), 1.0)


@pytest.mark.parametrize("type_", TYPES)
@pytest.mark.parametrize("items", [ITEMS, ITEMS[:1]])
def test_every_number_on_a_sheet_is_a_figure(invented, type_, items):
    made = plan(question(type_, items), NAMES)
    text, placed = text_of(sheet(made, equal_weights(items, invented), "The readings go into a file."))
    assert vouch.vouch(text, placed) == ()
    assert all(text[one.start : one.end] == one.figure.text for one in placed)
    assert all(one.figure.facts or one.figure.text == "1 tbsp" for one in placed)
    assert [text.count(f"  {level}  ") >= made.repeats.value for level in made.levels] == [True, True]
    assert text.index("   1  ") < text.index("   2  ")


def test_a_sheet_says_what_equal_weights_are(invented):
    text, _ = text_of(sheet(plan(question("swap"), NAMES), equal_weights(ITEMS, invented), ""))
    said = "Equal weights, 7 g of each, would be 1 tbsp of ground flaxseed and ⅞ tbsp of ground chia seed."
    assert said in " ".join(text.split())


def filled(text: str) -> str:
    """The file with the readings typed in, a different one for each."""
    values = iter(range(10, 10_000))
    return re.sub(r"values: \[\]", lambda _: f"values: [{next(values)}, {next(values)}]", text)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "knowledge" / "trials").mkdir(parents=True)
    return tmp_path / "knowledge"


@pytest.mark.parametrize("type_", TYPES)
def test_a_file_of_readings_loads_once_they_are_typed_in_and_not_before(folder, type_):
    written = readings_file(plan(question(type_), NAMES), "flax-or-chia", [], invented=False)
    path = folder / "trials" / "flax-or-chia.yaml"
    path.write_text(written, encoding="utf-8")
    before = load_knowledge(folder)[1]
    assert before
    assert {problem.message for problem in before} == {"a reading has no values"}
    path.write_text(filled(written), encoding="utf-8")
    library, problems = load_knowledge(folder)
    assert problems == ()
    assert [level.name for level in read(library.trial("flax-or-chia"))[0].levels] == list(NAMES.values())


def test_a_screening_file_loads_and_its_effects_can_be_told(folder):
    made = screening_plan("green", 'suspects of "green"', ("lemon", "less soda", "chilled: an hour"), "colour")
    path = folder / "trials" / "green.yaml"
    path.write_text(filled(readings_file(made, "green", [], invented=False)), encoding="utf-8")
    library, problems = load_knowledge(folder)
    assert problems == ()
    trial = library.trial("green")
    assert trial.varied == ("lemon", "less soda", "chilled: an hour")
    assert {one.suspect for one in effects(trial, read(trial)[0])} == set(trial.varied)


def test_doses_sleep_until_somebody_knows_them(invented):
    written = readings_file(plan(question("swap"), NAMES), "x", [("ground flaxseed", "flax.ground")], invented=True)
    assert '\n#doses:\n#  - {level: "ground flaxseed", item: flax.ground, amount: 0 g}\n' in written
    assert "\ninvented: true\n" in written


def test_a_run_of_something_that_is_not_varied_is_a_problem(folder):
    """Or a slip of the keyboard would count as the suspect's absence."""
    made = screening_plan("green", "suspects of green", ("lemon", "less soda"), "colour")
    written = filled(readings_file(made, "green", [], invented=False)).replace('"lemon"', '"lemmon"')
    (folder / "trials" / "green.yaml").write_text(written.replace('varied: ["lemmon"', 'varied: ["lemon"'))
    (problem,) = load_knowledge(folder)[1]
    assert problem.message == "level 'lemmon' has 'lemmon', which is not varied"
