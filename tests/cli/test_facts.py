"""`levelspoon facts` shows everything known of an ingredient."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from jsonschema import Draft202012Validator
from typer.testing import CliRunner

from qa import contract
from qa.cli.bars import forest
from qa.cli.commands import app
from qa.knowledge.library import Library
from qa.knowledge.load import load_knowledge
from qa.settings import SETTINGS_FILE, shipped


@pytest.fixture(scope="module")
def library() -> Library:
    """The starter knowledge."""
    return load_knowledge(shipped("knowledge"))[0]


@pytest.fixture(autouse=True)
def elsewhere(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Not in a workbench, so that the starter knowledge speaks."""
    monkeypatch.chdir(tmp_path)


def run(*words: str) -> str:
    """What a command prints."""
    result = CliRunner().invoke(app, list(words), catch_exceptions=False)
    assert result.exit_code == 0
    return result.output


def test_every_fact_of_every_form_is_there(library: Library) -> None:
    """Each with tier, spread, source, place in the source and place in the file, in the shape that is promised."""
    found = json.loads(run("facts", "flaxseed", "--json"))
    Draft202012Validator(contract.schema("facts")).validate(found)
    held = {fact["id"]: fact for facts in found["tiers"].values() for fact in facts}
    known = [fact for fact in library.knowledge.facts if fact.item.partition(".")[0] == "flax"]
    assert set(held) == {fact.id for fact in known}
    for fact in known:
        assert held[fact.id]["tier"] == fact.tier
        assert (held[fact.id]["file"], held[fact.id]["line"]) == fact.place
        assert held[fact.id]["conditions"] == dict(fact.conditions)
        assert held[fact.id]["where"] == fact.where
    spoon = held["flax.ground.bulk-density.usda-sr26:tbsp"]
    assert (spoon["value"], spoon["unit"]) == (7.0, "g/us_tbsp")
    assert spoon["spread"] == pytest.approx(0.5 / 3**0.5)  # half of the last digit over √3 (GUM 4.3.7)
    assert {swap["id"] for swap in found["swaps"]} == {
        swap.id for swap in library.knowledge.swaps if swap.replace.partition(".")[0] == "flax"
    }


def test_one_form_alone(library: Library) -> None:
    """With what holds of every form."""
    found = json.loads(run("facts", "ground flax", "--json"))
    items = {fact["item"] for facts in found["tiers"].values() for fact in facts}
    assert items <= {"flax", "flax.ground"}
    assert "flax.ground" in items
    assert (found["ingredient"], found["form"]) == ("flax", "ground")


def test_people_see_tiers_sources_bars_and_the_conflict() -> None:
    """Strongest tier first; the sentence a reply would use under the bars."""
    shown = run("facts", "rice.flour")
    assert shown.index("\nPublished\n") < shown.index("\nCommon practice\n")
    assert "knowledge/ingredients/rice.yaml:" in shown
    assert "|" in shown.split("Where several sources speak")[1]
    flat = " ".join(shown.split())
    assert "Published figures differ: 142 g per cup by a US miller's weight chart and 204 g per cup by a" in flat
    assert "because" in flat


def test_what_our_own_kitchen_found_comes_first(tmp_path: Path) -> None:
    """In a workbench whose channel is invented, its trials speak, and say that they are invented."""
    bench = tmp_path / "bench"
    run("new", str(bench))
    settings = bench / SETTINGS_FILE
    settings.write_text("invented = true\n")
    for name in ("trials", "episodes"):
        for path in (shipped("knowledge") / name).iterdir():
            (bench / "knowledge" / name / path.name).write_bytes(path.read_bytes())
    shown = run("facts", "psyllium husk", "--at", str(bench))
    assert shown.index("\nMeasured in our kitchen\n") < shown.index("\nPublished\n")
    assert "invented" in shown.split("\nPublished\n")[0]


def test_a_plot_is_written(tmp_path: Path) -> None:
    """As the file's ending says."""
    run("facts", "rice.flour", "--plot", str(tmp_path / "rice.svg"))
    assert "a US miller" in (tmp_path / "rice.svg").read_text()
    run("facts", "rice.flour", "--plot", str(tmp_path / "rice.PNG"))
    assert (tmp_path / "rice.PNG").read_bytes().startswith(b"\x89PNG")


def test_an_unknown_ingredient_gets_the_nearest() -> None:
    """One line, exit code as for all our errors."""
    result = CliRunner().invoke(app, ["facts", "flaxsed"])
    assert "did you mean" in str(result.exception)


def test_bars_keep_proportion() -> None:
    """The value stands within its range, and ranges that do not overlap do not in print."""
    rows = [
        {"label": "low", "low": 0.0, "value": 5.0, "high": 10.0},
        {"label": "high", "low": 20.0, "value": 25.0, "high": 30.0},
        {"label": "a label much too long to be printed within its column", "low": 0.0, "value": 30.0, "high": 30.0},
    ]
    lines = forest(rows)
    bars = [line[41:71] for line in lines]
    assert bars[0].rstrip().endswith("|")
    assert len(bars[0].rstrip()) <= bars[1].index("|")
    assert bars[0].index("|") == 0
    assert bars[1].rindex("|") == 29
    assert bars[2].rindex("o") == 29
    assert lines[2][39] == "…"
    assert all(line[70:71].strip() in {"", "|", "o"} for line in lines[:3])


def test_equal_values_need_no_width() -> None:
    """Two sources with one value and no spread."""
    rows = [{"label": "a", "low": 3.0, "value": 3.0, "high": 3.0}] * 2
    assert [line.split() for line in forest(rows)[:2]] == [["a", "o", "3"]] * 2
