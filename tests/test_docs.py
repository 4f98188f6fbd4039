"""The words are checked against the program."""

import doctest
import re
import subprocess
import sys
from pathlib import Path

import pytest
from typer.main import get_command

from qa.cli.commands import app
from qa.contract import SHAPES

ROOT = Path(__file__).resolve().parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")
COMMANDS = sorted(get_command(app).commands)  # type: ignore[attr-defined]


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_stands_in_the_readme_and_explains_itself(name):
    assert re.search(rf"^\| `{re.escape(name)}[ `]", README, re.MULTILINE), f"{name} has no line in README.md"
    command = get_command(app).commands[name]  # type: ignore[attr-defined]
    assert (command.help or "").strip().endswith((".", ")")), f"{name} has no help"


def test_the_readme_names_no_command_that_is_not_there():
    named = set(re.findall(r"^\| `([a-z-]+)", README, re.MULTILINE))
    assert named == set(COMMANDS)


def test_every_output_for_programs_has_a_shape():
    assert {"ask", "replies", "read", "weigh", "swap", "carbs", "leaven", "sweeten", "topics", "roundup"} <= set(SHAPES)


def test_help_imports_nothing_heavy():
    """Start-up stays light: the libraries that take long are imported by the commands that need them."""
    heavy = "sklearn scipy pandas numpy matplotlib sqlalchemy pint jinja2 pydantic starlette".split()
    code = f"import qa.cli.commands, sys; print([m for m in {heavy!r} if m in sys.modules])"
    shown = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True)
    assert shown.stdout.strip() == "[]"


def test_pictures_in_the_readme_are_there():
    for path in re.findall(r"\]\((docs/[^)]+)\)", README):
        assert (ROOT / path).is_file(), path


@pytest.mark.parametrize(("page", "examples", "sections"), [("sums", 31, 9), ("trials", 16, 6)])
def test_pages_that_explain_figures_show_what_the_program_gives(page, examples, sections):
    """Every example on the page is run and gives what it shows; every section has one."""
    path = ROOT / f"docs/{page}.md"
    ran = doctest.testfile(str(path), module_relative=False, encoding="utf-8")
    assert (ran.attempted >= examples, ran.failed) == (True, 0)
    told = re.split(r"^## ", path.read_text(encoding="utf-8"), flags=re.MULTILINE)[1:]
    assert len(told) >= sections
    assert [section.splitlines()[0] for section in told if ">>>" not in section] == []


PAGES = ("README.md", "DEVELOPERS.md", "CHANGELOG.md", "knowledge/README.md", "docs/sums.md", "docs/trials.md")


@pytest.mark.parametrize("page", PAGES)
def test_pages_name_only_files_that_are_there(page):
    text = (ROOT / page).read_text(encoding="utf-8")
    for path in re.findall(
        r"`((?:qa|tests|docs|knowledge|templates|sample_comments)/[\w./-]+\.(?:py|md|yaml|toml))`", text
    ):
        assert (ROOT / path).exists(), path
