"""The commands of the trade's sums: what they print, for people and for programs, and how they refuse."""

import json
import subprocess
import sys

import pytest
from typer.testing import CliRunner

from qa import contract
from qa.cli.commands import app, main


@pytest.fixture(autouse=True)
def elsewhere(tmp_path, monkeypatch):
    """Not in a workbench, so that the starter knowledge speaks."""
    monkeypatch.chdir(tmp_path)


COMMANDS = [
    (["carbs", "2 tbsp psyllium husk", "--region", "UK"], "carbs", ["digestible carbohydrate", "UK: 0.2 g", "1.3 %"]),
    (["carbs", "14", "g", "fibre", "38", "g", "per", "100", "g", "--region", "uk"], "carbs", ["14 g", "count it"]),
    (["carbs", "compare", "3 g per 15 g", "2 g per 7 g", "--region", "US"], "carbs-compare",
     ["1.43 times apart", "rounding alone can explain it", "17 to 23 g", "21 to 36 g"]),
    (["leaven", "1 tsp baking powder"], "leaven", ["1.1 g (about ¼ tsp)", "2.4 g (about ¾ tsp)", "58 %"]),
    (["leaven", "1/4 tsp soda", "--with", "1/2 tsp cream of tartar"], "leaven", ["0.5 g", "used up: 58 %", "soapy"]),
    (["sweeten", "1 cup sugar", "--with", "erythritol"], "sweeten", ["250 to 330 g", "energy saved", "laxative"]),
    (["scale", "500 g flour", "1.5"], "scale", ["750 g", "500 g × 1.5 = 750 g"]),
    (["scale", "--pan", "20 cm round", "--to", "23 cm round"], "scale", ["factor: 1.32", "415.5 ÷ 314.2"]),
    (["scale", "--eggs", "3", "--have", "2"], "scale", ["0.667", "2 eggs ÷ 3 eggs"]),
    (["heat", "350 F"], "heat", ["177 °C, 350 °F, gas mark 4; fan oven 157 °C", "oven thermometer"]),
    (["heat", "--altitude", "1500m"], "heat", ["water boils at 95 °C"]),
    (["heat", "--core", "poultry"], "heat", ["165 °F (74 °C)", "USDA FSIS", "UK FSA"]),
    (["check-sum", "500 g flour and 350 g water is 70 %"], "check-sum", ["350 ÷ 500 = 70 %, right"]),
    (["weigh", "2 tbsp psyllium husk"], "weigh", ["12 g", "a conference abstract: 15 g", "disagree"]),
    (["swap", "20 g fresh yeast", "--for", "instant yeast"], "swap", ["7 g", "reference tables disagree"]),
]  # fmt: skip


@pytest.mark.parametrize(("words", "shape", "says"), COMMANDS, ids=lambda value: str(value)[:40])
def test_people_see_the_result_with_its_working(words, shape, says):
    result = CliRunner().invoke(app, words, catch_exceptions=False)
    assert result.exit_code == 0
    flat = " ".join(result.output.split())
    assert [said for said in says if said not in flat] == []


@pytest.mark.parametrize(("words", "shape", "says"), COMMANDS, ids=lambda value: str(value)[:40])
def test_programs_get_the_promised_keys(words, shape, says):
    result = CliRunner().invoke(app, [*words, "--json"], catch_exceptions=False)
    found = json.loads(result.output)
    assert set(found) == set(contract.schema(shape)["properties"])


def test_an_episodes_recipe_is_scaled(tmp_path):
    from qa.settings import Settings
    from qa.workbench import Workbench

    Workbench.create(tmp_path / "bench", Settings(invented=True))
    words = ["scale", "2", "--episode", "seed-eggs", "--at", str(tmp_path / "bench")]
    result = CliRunner().invoke(app, words, catch_exceptions=False)
    assert "312 g  oat, flour   (was 156 g)" in result.output


@pytest.mark.parametrize(
    "words",
    [
        ["carbs", "compare", "3 g per 15 g"],
        ["carbs", "2 tbsp psyllium husk", "--region", "Mars"],
        ["leaven", "flour"],
        ["sweeten", "sugar", "--with", "moon dust"],
        ["scale", "-5 g flour", "2"],
        ["scale", "--pan", "20 cm round"],
        ["scale", "--eggs", "3"],
        ["scale", "500 g flour", "0"],
        ["heat"],
        ["heat", "350 F", "--core", "egg"],
        ["heat", "warm"],
        ["check-sum", "hello"],
    ],
    ids=" ".join,
)
def test_wrong_input_is_one_line_and_exit_2(words, monkeypatch, capsys):
    monkeypatch.setattr(sys, "argv", ["levelspoon", *words])
    with pytest.raises(SystemExit) as stopped:
        main()
    said = capsys.readouterr().err
    assert stopped.value.code == 2
    assert said.startswith("levelspoon: ")
    assert said.count("\n") == 1


def test_the_schemas_of_all_sums_are_printed():
    for name in ("weigh", "swap", "carbs", "carbs-compare", "leaven", "sweeten", "scale", "heat", "check-sum"):
        result = CliRunner().invoke(app, ["schema", name], catch_exceptions=False)
        assert "working" in json.loads(result.output)["properties"]


def test_help_stays_light():
    """The sums load nothing heavy before they are asked for."""
    code = "import qa.cli, sys; print([m for m in ('pint', 'jinja2', 'sklearn', 'pandas') if m in sys.modules])"
    found = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert found.stdout.strip() == "[]"
