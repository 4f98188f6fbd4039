"""What all tests share: the tables of published figures in tests/cases, each row with its source."""

from __future__ import annotations

import csv
from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import settings

# The same examples on every run, and no deadline: a busy machine is no fault of the code.
settings.register_profile("levelspoon", deadline=None, derandomize=True)
settings.load_profile("levelspoon")

# Doctests are on for all modules, but conftest files all have one name and hold none.
collect_ignore_glob = ["*conftest.py"]

CASES = Path(__file__).with_name("cases")


@pytest.fixture(scope="session")
def rows() -> Callable[[str], list[dict[str, str]]]:
    """The rows of a table in tests/cases, by file name."""

    def read(name: str) -> list[dict[str, str]]:
        with (CASES / name).open(encoding="utf-8", newline="") as file:
            return list(csv.DictReader(file))

    return read
