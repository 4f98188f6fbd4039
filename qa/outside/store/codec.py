"""Records to JSON text and back; NaN and infinities survive."""

from __future__ import annotations

from collections.abc import Hashable
from functools import lru_cache
from typing import Any, TypeVar, cast

from pydantic import TypeAdapter
from pydantic_core import to_json

T = TypeVar("T")


@lru_cache(maxsize=16)
def _adapter(kind: Hashable) -> TypeAdapter[Any]:
    return TypeAdapter(cast(Any, kind))


def written(record: object) -> str:
    """A record as JSON text.

    >>> from qa.records import FactUse
    >>> written(FactUse("f", "measured", "kitchen", "v1"))
    '{"id":"f","tier":"measured","source":"kitchen","version":"v1"}'
    """
    return to_json(record, inf_nan_mode="constants").decode()


def read_back(kind: type[T], text: str) -> T:
    """A record from its JSON text."""
    record: T = _adapter(cast(Hashable, kind)).validate_json(text)
    return record
