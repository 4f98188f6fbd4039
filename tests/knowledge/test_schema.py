"""The editors' schemas accept what the reader accepts and refuse what they can see is wrong."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator
from ruamel.yaml import YAML

from qa.errors import NoKnowledge
from qa.knowledge.schema import SCHEMAS, schema
from qa.settings import shipped

GOOD = Path(__file__).with_name("good")
FOLDERS = {"ingredient": "ingredients", "answer": "answers", "trial": "trials", "episode": "episodes"}


def files(folder: Path, kind: str) -> list[Path]:
    """The files of one kind."""
    return sorted((folder / FOLDERS[kind]).glob("*.*")) if kind in FOLDERS else [folder / f"{kind}.yaml"]


def as_an_editor_sees_it(path: Path) -> Any:
    """Plain YAML 1.2 with numbers and booleans resolved and dates left as text."""
    text = path.read_text(encoding="utf-8")
    yaml = YAML(typ="safe", pure=True)
    yaml.constructor.add_constructor("tag:yaml.org,2002:timestamp", lambda _, node: node.value)
    return yaml.load(text.split("\n---\n")[0] if path.suffix == ".md" else text)


@pytest.mark.parametrize("kind", SCHEMAS)
@pytest.mark.parametrize("folder", [GOOD, shipped("knowledge")], ids=["made-up", "real"])
def test_the_files_fit_their_schema(folder: Path, kind: str) -> None:
    """Some of each kind, made up and real; every fifth real one, for time."""
    found = files(folder, kind)
    validator = Draft202012Validator(schema(kind))
    assert found
    for path in found if folder == GOOD else found[::5]:
        assert [
            f"{path.name}: {e.json_path} {e.message}" for e in validator.iter_errors(as_an_editor_sees_it(path))
        ] == []


@pytest.mark.parametrize(("kind", "file", "old", "new"), [
    ("ingredient", "ingredients/moonflour.yaml", "property: energy", "property: enregy"),
    ("ingredient", "ingredients/moonflour.yaml", "family: flour", "family: flower"),
    ("ingredient", "ingredients/moonflour.yaml", "    where:", "    whear:"),
    ("ingredient", "ingredients/moonflour.yaml", "    by: weight", "    by: feeling"),
    ("answer", "answers/weigh-moonflour.md", "  - moonflour spoon weight??\n", ""),
    ("answer", "answers/weigh-moonflour.md", "asks: [weight]", "asks: [wieght]"),
    ("trial", "trials/moon-spoons.yaml", "resolution: 0.1", "resolution: 0"),
    ("episode", "episodes/moon-bread.yaml", "grams: 440", "grams: lots"),
    ("sources", "sources.yaml", "kind: memory", "kind: rumour"),
])  # fmt: skip
def test_a_wrong_file_does_not_fit(tmp_path: Path, kind: str, file: str, old: str, new: str) -> None:
    """What an editor should underline."""
    path = tmp_path / Path(file).name
    text = (GOOD / file).read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")
    assert list(Draft202012Validator(schema(kind)).iter_errors(as_an_editor_sees_it(path)))


def test_schemas_are_schemas() -> None:
    """By their own meta-schema."""
    for kind in SCHEMAS:
        Draft202012Validator.check_schema(schema(kind))


def test_an_unknown_kind_gets_the_nearest_name() -> None:
    """One clear line."""
    with pytest.raises(NoKnowledge, match="did you mean 'answer'"):
        schema("answr")
