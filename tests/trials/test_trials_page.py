"""The page that explains the trials shows what they give."""

from __future__ import annotations

import doctest
import re
from pathlib import Path

PAGE = Path(__file__).parents[2] / "docs/trials.md"


def test_the_worked_examples_of_the_page_hold():
    """Every example on the page is run, and gives what it shows."""
    ran = doctest.testfile(str(PAGE), module_relative=False, encoding="utf-8")
    assert ran.attempted > 15
    assert ran.failed == 0


def test_every_part_has_an_example():
    """Each section of the page has at least one example."""
    sections = re.split(r"^## ", PAGE.read_text(encoding="utf-8"), flags=re.MULTILINE)[1:]
    assert len(sections) >= 6
    assert [section.splitlines()[0] for section in sections if ">>>" not in section] == []
