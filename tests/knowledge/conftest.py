"""A made-up knowledge folder without a fault, and fixtures that spoil it."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path
from textwrap import dedent

import pytest

from qa.errors import Problem
from qa.knowledge.library import Library
from qa.knowledge.load import load_knowledge

GOOD = Path(__file__).with_name("good")
Loaded = tuple[Library, tuple[Problem, ...]]


@pytest.fixture(scope="session")
def library() -> Library:
    """The made-up knowledge, loaded."""
    return load_knowledge(GOOD, invented=True)[0]


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A copy of the made-up knowledge to spoil."""
    return Path(shutil.copytree(GOOD, tmp_path / "knowledge"))


@pytest.fixture
def starflour(folder: Path, request: pytest.FixtureRequest) -> Loaded:
    """The made-up knowledge, with what the test's own docstring says added to the end of starflour's file."""
    path = folder / "ingredients/starflour.yaml"
    path.write_text(path.read_text() + dedent(request.function.__doc__).strip("\n") + "\n")
    return load_knowledge(folder)


@pytest.fixture
def facts_doc(folder: Path, request: pytest.FixtureRequest) -> Loaded:
    """The made-up knowledge, with the facts in the test's own docstring added to starflour's."""
    path = folder / "ingredients/starflour.yaml"
    path.write_text(path.read_text() + indented(request.function.__doc__))
    return load_knowledge(folder)


def indented(doc: str) -> str:
    """A docstring's lines, two spaces in."""
    return "".join(f"  {line}\n" for line in dedent(doc).strip("\n").splitlines())


@pytest.fixture
def write(folder: Path) -> Callable[[str, str], Loaded]:
    """Write one file of the made-up knowledge anew and load it all."""

    def write_and_load(path: str, text: str) -> Loaded:
        (folder / path).write_text(text, encoding="utf-8")
        return load_knowledge(folder)

    return write_and_load
