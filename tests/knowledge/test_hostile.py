"""Whatever stands in a file, reading it ends soon in entries and problems, never in a traceback."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from qa.errors import Place
from qa.knowledge import nodes
from qa.knowledge.examples import example_lines
from qa.knowledge.fields import Report
from qa.knowledge.load import load_knowledge

GOOD = Path(__file__).with_name("good")
FILES = tuple(sorted(str(p.relative_to(GOOD)) for p in GOOD.rglob("*.*")))
PIECES = st.sampled_from([
    "{", "}", "[", "]", "- ", ": ", "\n", "\n  ", "---\n", "'", '"', "&a ", "*a", "!!int ", "#", "|\n", ">\n", "? ",
    "%", "7 g", "± ", "null", "true", "1e999", "\t", "{{ x }}", "{% if %}", "ÿ", "\u2028", "id", "form",
])  # fmt: skip


@given(st.sampled_from(FILES), st.integers(0, 2000), st.integers(0, 40), st.lists(PIECES, max_size=6))
@settings(max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_a_file_with_a_piece_torn_out_loads(tmp_path: Path, file: str, start: int, length: int, put: list[str]) -> None:
    """Every problem names that knowledge folder's files and a line that exists, and says what to do."""
    folder = tmp_path / "knowledge"
    shutil.copytree(GOOD, folder, dirs_exist_ok=True)
    text = (GOOD / file).read_text(encoding="utf-8")
    start %= len(text)
    spoilt = text[:start] + "".join(put) + text[start + length :]
    (folder / file).write_text(spoilt, encoding="utf-8")
    library, problems = load_knowledge(folder, invented=True)
    assert {fact.item.partition(".")[0] for fact in library.knowledge.facts} <= {
        i.id for i in library.knowledge.ingredients
    }
    for problem in problems:
        path = folder.parent / problem.place.file
        assert path.exists()
        assert problem.remedy
        assert 0 <= problem.place.line <= path.read_text(encoding="utf-8").count("\n") + 2


@given(st.text(max_size=300))
def test_any_text_is_a_tree_or_one_problem(text: str) -> None:
    """YAML or not."""
    found, problems = nodes.read_yaml(text, "file.yaml")
    assert not (found and problems)
    assert len(problems) <= 1


@given(st.text(max_size=300))
def test_any_text_gives_examples_or_problems(text: str) -> None:
    """Each line that is not empty is one or the other."""
    report = Report("file.jsonl")
    good = example_lines(text, report)
    assert len(good) + len(report.problems) == sum(bool(line.strip()) for line in text.split("\n"))


@pytest.mark.parametrize("file", FILES)
def test_both_parsers_read_the_same(file: str) -> None:
    """The fast one, where it is installed, and the thorough one."""
    text = (GOOD / file).read_text(encoding="utf-8").split("\n---\n")[0]
    fast = list(nodes._documents(nodes._fast_events(text), 0))
    assert fast == list(nodes._documents(nodes._slow_events(text), 0))


def test_a_problem_in_front_matter_counts_the_file_s_lines(folder: Path) -> None:
    """Not those of the front matter."""
    path = folder / "answers/weigh-moonflour.md"
    path.write_text(path.read_text().replace("  mass: weigh asked of first", "  mass: wiegh asked of first"))
    problem = load_knowledge(folder)[1][0]
    assert problem.place == Place("knowledge/answers/weigh-moonflour.md", 12)
