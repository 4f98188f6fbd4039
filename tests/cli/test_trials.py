"""`levelspoon trial`: the list, a report, the suspects of an outcome, the next test on paper."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator
from typer.testing import CliRunner, Result

from qa import contract
from qa.cli.commands import app
from qa.cli.told_trials import listed_, suspects
from qa.errors import LevelspoonError, NoKnowledge
from qa.knowledge.load import load_knowledge
from qa.records import Comment, Draft, Mention, Piece, Topic, Understood
from qa.settings import Settings
from qa.workbench import Workbench

GREEN = ("green by morning", "went green overnight", "green all through", "so green", "green again")
BROWN = (
    "with lemon, still brown",
    "lemon in the dough, brown as ever",
    "lemon did it, not green",
    "lemon and no green",
)


def run(*words: str, code: int = 0) -> Result:
    """A command that ends with that code."""
    result = CliRunner().invoke(app, list(words), catch_exceptions=False)
    assert result.exit_code == code, result.output
    return result


def told(bench: Path, *words: str) -> Any:
    """What a command tells programs."""
    return json.loads(run("trial", *words, "--json", "--at", str(bench)).output)


def understood(number: int, text: str) -> Understood:
    """An invented result, as it would be understood."""
    start = text.find("lemon")
    mentions = (Mention(start, start + 5, "lemon", "lemon"),) if start >= 0 else ()
    piece = Piece(0, len(text), text, (("result", 0.9),))
    return Understood(f"c{number}", text, "en", (("result", 0.9),), (piece,), mentions, ())


@pytest.fixture(scope="module")
def bench(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The invented channel with a few results and one open question, put into the store by hand."""
    folder = tmp_path_factory.mktemp("trials") / "bench"
    made = Workbench.create(folder, Settings(channel="Quillberry Test Kitchen", invented=True))
    texts = [*GREEN, *BROWN, "made them, thanks"]
    comments = [Comment(f"c{i}", text, episode="green-cookies") for i, text in enumerate(texts)]
    asked = Comment("q", "does it work with tigernut flour?")
    made.store.take_in([*comments, asked], "by hand", "2026-05-01T00:00:00+00:00", None)
    read = [understood(i, text) for i, text in enumerate(texts)]
    made.store.save(read, [Draft(one.comment, "no_reply") for one in read])
    asking = Understood("q", asked.text, "en", (("question", 0.9),), (), (), (), topic="tigernut")
    made.store.save([asking], [Draft("q", "needs_you", ("unknown_ingredient",))])
    made.store.save_topics([Topic("swap:tigernut", "tigernut for oats", "swap", ("oat", "tigernut"), ("q",))])
    made.store.close()
    return folder


def test_the_list_says_what_was_read_and_whether_it_was_fair(bench: Path) -> None:
    rows = told(bench)
    for row in rows:
        Draft202012Validator(contract.schema("trials")).validate(row)
    assert [(row["id"], row["fair"], row["single"]) for row in rows] == [
        ("soda-and-green", "fair", 0),
        ("psyllium-spoons", "not fair", 1),
        ("chia-or-flax-egg", "not fair", 0),
    ]
    words = run("trial", "--at", str(bench)).output
    assert words.count("(invented)") == len(rows)


def test_a_real_channel_begins_without_trials(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    assert run("trial").output.strip() == listed_([])


@pytest.mark.parametrize("key", ["psyllium-spoons", "chia-or-flax-egg", "soda-and-green"])
def test_a_report_says_the_same_to_people_and_programs(bench: Path, key: str) -> None:
    found = told(bench, key)
    Draft202012Validator(contract.schema("trial-report")).validate(found)
    words = " ".join(run("trial", key, "--at", str(bench)).output.split())
    assert "Invented for demonstration" in words
    assert f"Fair test: {found['fair']['verdict']}" in words
    for sentence in [*found["fair"]["words"], *(w for one in found["agreement"] for w in one["words"])]:
        assert " ".join(sentence.split()) in words
    for quantity in found["quantities"]:
        for level in quantity["levels"]:
            assert level["mean"]["text"] in words
            assert level["mean"]["facts"] == [f"readings:{key}"]
            assert level["mean"]["working"]


def test_the_report_names_single_readings(bench: Path) -> None:
    assert told(bench, "psyllium-spoons")["single"] == ["spread of the gel, home-ground"]
    assert "nobody knows how well they repeat" in run("trial", "psyllium-spoons", "--at", str(bench)).output


def test_suspects_are_counted_and_never_called_causes(bench: Path) -> None:
    """Five green without lemon and four brown with it, beside the invented trial: two green, one brown with lemon."""
    found = told(bench, "--suspects", "green")
    Draft202012Validator(contract.schema("trial-suspects")).validate(found)
    assert (found["batches"], found["had"], found["own"], found["unsaid"]) == (12, 7, 3, 1)
    lemon = found["suspects"][0]
    counts = ("with_had", "with_not", "without_had", "without_not", "by_recipe", "not_reported")
    assert (lemon["suspect"], *(lemon[name] for name in counts)) == ("lemon", 0, 5, 7, 0, 5, 0)
    assert lemon["p"]["value"] == pytest.approx(1 / 792)
    assert lemon["goes"] == "without"
    words = run("trial", "--suspects", "green", "--at", str(bench)).output
    assert "green stays away with lemon" in words
    assert "need not cause it" in words
    assert lemon["question"] in words


def test_suspects_of_one_upload_and_of_nothing(bench: Path) -> None:
    assert told(bench, "--suspects", "green", "--episode", "green-cookies")["batches"] == 12
    nothing = told(bench, "--suspects", "purple")
    assert nothing["batches"] == 0
    assert "No result and no trial tells of 'purple'" in suspects(nothing)


def test_a_plan_is_a_sheet_and_a_file_that_loads_once_filled_in(bench: Path) -> None:
    shown = told(bench, "--plan", "tigernut", "--dry-run")
    Draft202012Validator(contract.schema("trial-plan")).validate(shown)
    path = bench / shown["file"]
    assert not path.exists()
    sheet = run("trial", "--plan", "Tigernut", "--at", str(bench)).output
    assert shown["text"].strip() in sheet
    assert path.read_text(encoding="utf-8") == shown["readings"]
    assert "there already" in run("trial", "--plan", "tigernut", "--at", str(bench)).output
    assert load_knowledge(bench / "knowledge", invented=True)[1] == ()
    typed = shown["readings"].replace("values: []", "values: [40, 42]")
    (bench / "knowledge/trials/tigernut.yaml").write_text(typed, encoding="utf-8")
    assert run("check", "--at", str(bench)).output.startswith("No problems")
    assert "40, 42" in run("trial", "tigernut", "--at", str(bench)).output
    (bench / "knowledge/trials/tigernut.yaml").unlink()


def test_a_screening_sheet_as_a_page(bench: Path, tmp_path: Path) -> None:
    page = tmp_path / "sheet.html"
    vary = "lemon juice,<b>less</b> soda,chilled dough"
    run("trial", "--plan", "green", "--vary", vary, "--format", "html", "--out", str(page), "--at", str(bench))
    html = page.read_text(encoding="utf-8")
    assert html.count("<tr>") == 9
    assert "An invented channel" in html
    assert "&lt;b&gt;less&lt;/b&gt; soda" in html
    assert "<b>" not in html
    found = told(bench, "--plan", "green", "--vary", vary)
    assert found["file"] == "knowledge/proposed/trials/green-screening.yaml"
    assert (found["state"], found["bakes"]["value"], len(found["order"])) == ("there already", 8, 8)


def test_a_plot_holds_every_level(bench: Path, tmp_path: Path) -> None:
    path = tmp_path / "readings.svg"
    run("trial", "psyllium-spoons", "--plot", str(path), "--at", str(bench))
    drawn = path.read_text(encoding="utf-8")
    assert "home-ground: 77 mm (a single reading)" in drawn
    assert "(invented)" in drawn


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("nothing-like-it",), "no trial 'nothing-like-it' is known"),
        (("psyllium-spoon",), "did you mean 'psyllium-spoons'?"),
        (("psyllium-spoons", "--suspects", "green"), "do not go together"),
        (("--vary", "a,b"), "do not go together"),
        (("--episode", "green-cookies"), "do not go together"),
        (("--plot", "x.svg"), "no trial is named to draw"),
        (("--plan", "tigernut", "--format", "pdf"), "there are: text, html"),
        (("--plan", "tigernuts"), "did you mean 'tigernut"),
        (("--plan", "green", "--vary", "lemon"), "name 2 to 21 of them"),
        (("--suspects", "12"), "names no outcome"),
        (("--suspects", "green", "--episode", "nowhere"), "no episode 'nowhere' is known"),
    ],
)
def test_what_is_wrong_is_told_in_one_line(bench: Path, words: tuple[str, ...], says: str) -> None:
    with pytest.raises((LevelspoonError, NoKnowledge)) as fault:
        run("trial", *words, "--at", str(bench))
    assert says in str(fault.value)
    assert "\n" not in str(fault.value)


def test_the_readme_shows_what_is_printed(bench: Path) -> None:
    """Line for line, but for what is left out."""
    readme = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")
    block = re.search(r"\$ levelspoon trial (\S+) --at levelspoon-demo\n((?:    .*\n|\n)+)", readme)
    assert block
    printed = run("trial", block[1], "--at", str(bench)).output.splitlines()
    shown = [line.removeprefix("    ") for line in block[2].splitlines() if line.strip() not in ("", "…")]
    assert len(shown) > 5
    assert [line for line in shown if line not in printed] == []
