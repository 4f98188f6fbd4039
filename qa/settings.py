"""The channel's settings: one frozen record, each field explained where it is defined."""

from __future__ import annotations

import json
import tomllib
from dataclasses import dataclass, field, fields
from pathlib import Path
from typing import Any

from qa.errors import Place, Problem
from qa.text import nearest

SETTINGS_FILE = "levelspoon.toml"


def _explained(default: Any, words: str) -> Any:
    """A field with its explanation; `levelspoon new` writes the explanations into the settings file."""
    return field(default=default, metadata={"words": words})


@dataclass(frozen=True, slots=True)
class Settings:
    """What a channel may set, in `levelspoon.toml` at the top of its workbench.

    >>> Settings().draft_from
    0.75
    """

    channel: str = _explained("", "The channel's name, as the round-up's heading prints it.")
    invented: bool = _explained(False, "True for demonstration data; every output then says that it is invented.")
    store: str = _explained("sqlite:///levelspoon.db", "Where comments and drafts are kept (a SQLAlchemy URL).")
    region: str = _explained("", "Measures the audience mostly uses (US, AU, UK, NZ, CA, JP); empty if unknown.")
    draft_from: float = _explained(0.75, "Sureness, 0 to 1, below which there is a reason instead of a draft.")
    reply_words: int = _explained(90, "Longest reply in words before it is shown as too long.")
    round_up_characters: int = _explained(5000, "Longest pinned tip sheet as plain text, in characters.")
    similar_spelling: float = _explained(0.84, "How alike, 0 to 1, a misspelt word and an ingredient's name must be.")


def load_settings(path: Path) -> tuple[Settings, list[Problem]]:
    """Read settings from a TOML file; unknown names and wrong types become problems, not exceptions."""
    if not path.exists():
        return Settings(), []
    try:
        table = tomllib.loads(path.read_text(encoding="utf-8"))
    except (tomllib.TOMLDecodeError, UnicodeDecodeError) as fault:
        return Settings(), [Problem(Place(str(path)), f"not TOML: {fault}", "mend the line it names")]
    known = {f.name: f for f in fields(Settings)}
    problems: list[Problem] = []
    good: dict[str, Any] = {}
    for name, value in table.items():
        if name not in known:
            hint = nearest(name, known)
            remedy = f"did you mean {hint!r}?" if hint else f"known settings: {', '.join(known)}"
            problems.append(Problem(Place(str(path)), f"unknown setting {name!r}", remedy))
            continue
        wanted = type(known[name].default)
        if wanted is float and type(value) is int:
            value = float(value)  # noqa: PLW2901
        if type(value) is not wanted:
            problems.append(Problem(Place(str(path)), f"{name} is {value!r}", f"write a {wanted.__name__}"))
            continue
        good[name] = value
    return Settings(**good), problems


def settings_text(settings: Settings) -> str:
    """The settings as a TOML file in which every field carries its explanation."""
    lines = []
    for f in fields(settings):
        lines += [f"# {f.metadata['words']}", f"{f.name} = {_toml(getattr(settings, f.name))}", ""]
    return "\n".join(lines)


def _toml(value: str | bool | float) -> str:
    if isinstance(value, bool):
        return str(value).lower()
    return json.dumps(value, ensure_ascii=False)


def shipped(name: str) -> Path:
    """The folder of that name which travels with the program: knowledge, templates or sample_comments."""
    package = Path(__file__).parent
    installed = package / "shipped" / name
    return installed if installed.exists() else package.parent / name
