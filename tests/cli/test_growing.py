"""Commands that let the knowledge grow: learn, import-table, check --watch, schema."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator
from typer.testing import CliRunner, Result

from qa import contract
from qa.cli.commands import app
from qa.cli.watch import watched
from qa.knowledge.schema import SCHEMAS
from qa.settings import shipped
from qa.workbench import Workbench

COMMENTS = """id,text,author
1,does it work with tigernut flour?,Anna
2,has anyone tried tigernut flour in the muffins?,Ben
3,love this,Cem
"""


def run(*words: str, code: int = 0) -> Result:
    """A command that ends with that code."""
    result = CliRunner().invoke(app, list(words), catch_exceptions=False)
    assert result.exit_code == code, result.output
    return result


@pytest.fixture(scope="module")
def read(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A workbench that has read and drafted a few comments."""
    folder = tmp_path_factory.mktemp("learn") / "bench"
    run("new", str(folder))
    (folder / "week.csv").write_text(COMMENTS)
    run("read", str(folder / "week.csv"), "--at", str(folder))
    run("draft", "--at", str(folder))
    return folder


@pytest.fixture
def bench(tmp_path: Path) -> Path:
    """A workbench with the starter knowledge."""
    run("new", str(tmp_path / "bench"))
    return tmp_path / "bench"


def test_learn_shows_writes_and_forgets(read: Path) -> None:
    """First shown, then written once, never read as knowledge; forgetting a viewer takes their words out."""
    shown = json.loads(run("learn", "--dry-run", "--json", "--at", str(read)).output)
    for one in shown:
        Draft202012Validator(contract.schema("learn")).validate(one)
    tigernut = next(one for one in shown if one["file"] == "knowledge/proposed/ingredients/tigernut-flour.yaml")
    assert tigernut["asks"] == 2
    assert not (read / "knowledge/proposed").exists()
    assert "id: tigernut-flour" in run("learn", "--dry-run", "--at", str(read)).output

    path = read / tigernut["file"]
    assert "(written)" in run("learn", "--at", str(read)).output
    assert path.read_text() == tigernut["text"]
    path.write_text(path.read_text() + "# mine\n")
    assert "there already, left as it is" in run("learn", "--at", str(read)).output
    assert path.read_text().endswith("# mine\n")
    assert run("check", "--at", str(read)).output.startswith("No problems")
    assert not Workbench.open(read).library.has("tigernut-flour")

    assert "does it work with tigernut flour?" in path.read_text()
    run("forget", "@anna", "--at", str(read))
    assert "does it work with tigernut flour?" not in path.read_text()
    assert "has anyone tried tigernut flour" in path.read_text()


TABLE = """food;protein_g;fat_g;where
teff.flour;12,25;2,10;row 1
tigernut;4,5;25,2;row 2
flax.golden;20;40;row 3
teff.whole;tr;2;row 4
flaxseed;18;42;row 5
"""


def test_a_table_goes_into_the_files_of_what_is_known(bench: Path) -> None:
    """Unknown foods become proposals; what cannot be taken is said with its line; a second run adds nothing."""
    table = bench / "open.csv"
    table.write_text(TABLE)
    sources = bench / "knowledge/sources.yaml"
    sources.write_text(sources.read_text() + "\n- {id: open-table, kind: database, citation: An open table}\n")
    words = ("import-table", str(table), "--source", "open-table", "--columns", "item=food", "--at", str(bench))
    before = {path: path.read_text() for path in (bench / "knowledge").rglob("*.yaml")}
    dry = json.loads(run(*words, "--dry-run", "--json", code=1).output)
    Draft202012Validator(contract.schema("import-table")).validate(dry)
    assert {path: path.read_text() for path in (bench / "knowledge").rglob("*.yaml")} == before

    done = json.loads(run(*words, "--json", code=1).output)
    assert done["rows_read"] == 5
    library = Workbench.open(bench).library
    protein = next(f for f in library.facts("teff.flour", "protein") if f.source == "open-table")
    assert protein.measure is not None
    assert (protein.measure.value, protein.where) == (12.25, "row 1")
    assert not library.has("tigernut")
    assert "property: fat, value: 25.2 g/100 g" in (bench / "knowledge/proposed/ingredients/tigernut.yaml").read_text()
    said = [(one["file"], one["line"], one["message"]) for one in done["problems"]]
    assert any(file == "open.csv" and line == 4 and "golden" in message for file, line, message in said)
    assert any(file == "open.csv" and line == 5 and "'tr g/100 g'" in message for file, line, message in said)
    assert any(file == "open.csv" and line == 6 and "several things" in message for file, line, message in said)
    again = json.loads(run(*words, "--json", code=1).output)
    assert again["already_known"] == done["facts"] - 2  # what was only proposed is not known yet
    assert library.counts()["facts"] == Workbench.open(bench).library.counts()["facts"]


def test_a_source_nobody_listed_is_refused(bench: Path) -> None:
    """Before anything is written."""
    (bench / "open.csv").write_text(TABLE)
    words = ["import-table", str(bench / "open.csv"), "--source", "usda-sr62", "--columns", "item=food"]
    result = CliRunner().invoke(app, [*words, "--at", str(bench)])
    assert "did you mean 'usda-sr26'" in str(result.exception)


def test_watching_checks_once_for_each_save_and_ends_cleanly() -> None:
    """Three looks without a change cost one check; Ctrl-C gives the last count."""
    stamps = iter(["a", "a", "a", "b", "b", "c"])
    checks = iter([0, 2, 1])
    done: list[int] = []
    told: list[str] = []

    def check() -> int:
        done.append(next(checks))
        return done[-1]

    def stamp() -> str:
        try:
            return next(stamps)
        except StopIteration:
            raise KeyboardInterrupt from None

    assert watched(check, stamp, told.append, lambda _: None) == 1
    assert done == [0, 2, 1]
    assert told[-1] == "Stopped watching."


def test_a_save_during_the_check_is_seen() -> None:
    """The stamp is taken before the check begins."""
    state = {"stamp": 0, "checks": 0, "waits": 0}

    def check() -> int:
        state["checks"] += 1
        state["stamp"] = 1  # somebody saves while the first check runs
        return 0

    def wait(_: float) -> None:
        state["waits"] += 1
        if state["waits"] > 3:
            raise KeyboardInterrupt

    watched(check, lambda: state["stamp"], lambda _: None, wait)
    assert state["checks"] == 2


def test_check_watch_sees_a_real_save(bench: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A wrong line appears in a file, is reported, is mended, and the command ends with the last word."""
    path = bench / "knowledge/ingredients/flax.yaml"
    good = path.read_text()
    steps = iter([good + "colour: red\n", good])

    def wait(_: float) -> None:
        try:
            path.write_text(next(steps))
        except StopIteration:
            raise KeyboardInterrupt from None

    monkeypatch.setattr("qa.cli.watch.time.sleep", wait)
    monkeypatch.setattr(watched, "__defaults__", (wait,))
    shown = run("check", "--watch", "--at", str(bench)).output
    assert shown.count("No problems.") == 2
    assert "'colour' is no key of an ingredient" in shown


@pytest.mark.parametrize("name", sorted((*contract.SHAPES, *SCHEMAS)))
def test_every_schema_is_printed(name: str) -> None:
    """Of outputs and of files, each a schema by its own standard."""
    printed = json.loads(run("schema", name).output)
    Draft202012Validator.check_schema(printed)
    assert printed["$schema"] == "https://json-schema.org/draft/2020-12/schema"


def test_outputs_and_files_share_no_name() -> None:
    """Or `schema` could not tell which is meant."""
    assert not set(contract.SHAPES) & set(SCHEMAS)


def test_an_unknown_schema_gets_the_nearest() -> None:
    """Among both kinds."""
    result = CliRunner().invoke(app, ["schema", "ingredeint"])
    assert "did you mean 'ingredient'" in str(result.exception)


def test_the_starter_knowledge_is_not_written_to() -> None:
    """Learning and importing need a workbench."""
    for words in (["learn"], ["import-table", "x.csv", "--source", "usda-sr26"]):
        result = CliRunner().invoke(app, [*words, "--at", str(shipped("knowledge"))])
        assert "no workbench" in str(result.exception)
