"""The tip sheet as written: what is taken where there is no room for all, and where its figures stand."""

from __future__ import annotations

from dataclasses import replace

import pytest

from qa.knowledge.facts import Knowledge
from qa.knowledge.library import Library
from qa.pipeline import RoundUp, write_round_up
from qa.records import Figure
from qa.settings import Settings
from qa.stages.round_up import Line, Section, Sheet

NOTHING_KNOWN = Library(Knowledge())
WEIGHT = Figure("7 g", 7.0, 6.8, 7.2, "g", (), "invented")
ASKED = tuple(Line(f"question {letter}", "an answer of some length, " * 4, {}) for letter in "abcdefgh")
TESTED = (
    Line("spoons", "a level spoon holds {{ weight }}.", {"weight": WEIGHT}),
    Line("more spoons", "another holds {{ weight }}.", {"weight": WEIGHT}, credits=("ana", "bo")),
)
SHEET = Sheet((Section("Asked most", ASKED), Section("Tested here", TESTED)), ())


def written(characters: int, sheet: Sheet = SHEET) -> RoundUp:
    return write_round_up(sheet, "Tips", "The end.", NOTHING_KNOWN, replace(Settings(), round_up_characters=characters))


@pytest.mark.parametrize("characters", [260, 400, 600, 5000])
def test_no_section_crowds_out_the_next(characters):
    found = written(characters)
    assert len(found.text) <= characters
    assert {block.heading for block in found.blocks} == {"Asked most", "Tested here"}
    lines = sum(len(section.lines) for section in SHEET.sections)
    assert len(found.blocks) + len(found.left_out) == lines
    assert {why for _, why in found.left_out} <= {"no room under the limit"}


def test_with_room_for_all_everything_stands_in_its_order():
    found = written(5000)
    assert [block.topic for block in found.blocks] == [line.topic for line in (*ASKED, *TESTED)]
    assert found.text.index("ASKED MOST") < found.text.index("TESTED HERE") < found.text.index("The end.")
    assert "(thanks to ana and bo)" in found.text


def test_the_limit_is_used_up_to_the_last_character():
    whole = written(5000).text
    assert written(len(whole)).left_out == ()
    assert len(written(len(whole) - 1).left_out) == 1


def test_figures_and_lines_are_where_they_are_said_to_be():
    found = written(600)
    assert [found.text[placed.start : placed.end] for placed in found.figures] == ["7 g"] * len(found.figures)
    assert found.figures
    for block in found.blocks:
        assert found.text[block.start :].startswith(block.text)


def test_a_number_that_nothing_vouches_for_keeps_its_line_off_the_sheet():
    loose = Line("loose", "about 12 g.", {}, finished=True)
    found = written(5000, Sheet((Section("Tested here", (loose, *TESTED)),), ()))
    assert found.left_out[0].what == "loose"
    assert "12" not in found.text
