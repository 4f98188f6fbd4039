"""The folder of proposals inside the knowledge: files that people fill in and move. None is read as knowledge.

The reader looks into `ingredients/`, `answers/`, `trials/` and `episodes/` alone, so a proposal counts for nothing
until somebody moves it there.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from pathlib import Path

FOLDER = "proposed"
# A quote so short says nothing of anybody.
_SHORTEST = 3


def put(knowledge: Path, file: str, text: str) -> bool:
    """Write a proposal; False where there is one already, which somebody may have begun to fill in."""
    path = knowledge / FOLDER / file
    if path.exists():
        return False
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")
    return True


def without(knowledge: Path, texts: Iterable[str]) -> int:
    """Take every line out of the proposals that quotes one of these comments; how many went."""
    said = [words for text in texts if (words := " ".join(text.split()))]
    gone = 0
    for path in sorted((knowledge / FOLDER).rglob("*.*")) if said else []:
        lines = path.read_text(encoding="utf-8").splitlines(keepends=True)
        kept = [line for line in lines if not any(_quotes(line, words) for words in said)]
        if len(kept) < len(lines):
            path.write_text("".join(kept), encoding="utf-8")
            gone += len(lines) - len(kept)
    return gone


def _quotes(line: str, words: str) -> bool:
    """Whether a line of a proposal quotes from a comment; a spelling with its count is no quote."""
    bare = line.strip()
    if bare.startswith("#"):
        said = bare.removeprefix("#").removeprefix(" To fill in:").strip()
        return len(said) > _SHORTEST and said in words
    try:
        found = json.loads(bare.removeprefix("- ")) if bare.startswith('- "') else ""
    except ValueError:
        return False
    return len(found) > _SHORTEST and found in words
