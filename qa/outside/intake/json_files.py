"""The top-level elements of a JSON document, streamed where its shape allows."""

from __future__ import annotations

import json
from collections.abc import Iterator
from dataclasses import dataclass
from typing import IO, Any

from qa.errors import UnreadableInput
from qa.outside.intake.objects import is_keyed, members
from qa.outside.intake.sniff import Sniffed

LARGEST_WHOLE = 256 * 1024 * 1024
"""Bytes of a JSON document that is loaded whole; arrays and JSON Lines above that are streamed."""


@dataclass(frozen=True, slots=True)
class Broken:
    """A line of JSON Lines that is no JSON."""

    reason: str
    content: str


class Source:
    """The top-level elements of a JSON document, streamed where its shape allows."""

    def __init__(self, file: Sniffed) -> None:
        self.file = file
        self.lines = file.kind == "json lines"
        self.array = file.start.lstrip("\x00 \t\r\n").startswith("[")
        self.shape = "JSON Lines" if self.lines else "JSON array" if self.array else "JSON"

    def elements(self) -> Iterator[Any]:
        """Each line's value, each element of an array, or the one object."""
        if self.lines:
            return self._of_lines()
        size = self.file.path.stat().st_size
        if size <= LARGEST_WHOLE:
            return self._of_whole()
        if self.array:
            return self._of_array()
        raise UnreadableInput(
            f"{self.file.name}: one JSON object of {size / 2**20:,.0f} MiB is too large to load at once "
            f"(at most {LARGEST_WHOLE // 2**20} MiB)",
            "export it as JSON Lines or CSV, or in parts",
        )

    def _open(self) -> IO[str]:
        return self.file.path.open(encoding=self.file.encoding, errors="replace", newline="\n")

    def _of_lines(self) -> Iterator[Any]:
        with self._open() as handle:
            for line in iter(lambda: handle.readline(LARGEST_WHOLE), ""):
                if not line.strip("\ufeff\x00 \t\r\n"):
                    continue
                try:
                    yield json.loads(line.strip("\ufeff\x00 \t\r\n"), parse_int=_int)
                except (ValueError, RecursionError) as fault:
                    yield Broken(f"a line that is no JSON ({_what(fault)})", line[:1000])

    def _of_whole(self) -> Iterator[Any]:
        with self._open() as handle:
            text = handle.read()
        try:
            value = json.loads(text.strip("\ufeff\x00 \t\r\n"), parse_int=_int)
        except (ValueError, RecursionError) as fault:
            raise UnreadableInput(
                f"{self.file.name}: broken JSON: {_what(fault)}", "export the comments again"
            ) from fault
        yield from members(value) if isinstance(value, list) or is_keyed("comments", value) else [value]

    def _of_array(self) -> Iterator[Any]:
        """Elements decoded one by one from a window that moves over the file."""
        decode = json.JSONDecoder(parse_int=_int).raw_decode
        with self._open() as handle:
            window = handle.read(1 << 20).lstrip("\ufeff\x00 \t\r\n")[1:]
            more = True
            while True:
                window = window.lstrip(" \t\r\n,")
                if window.startswith("]"):
                    return
                try:
                    value, end = decode(window)
                    if end == len(window) and more:  # a number may go on in the next part
                        raise json.JSONDecodeError("cut", window, end)
                except RecursionError as fault:
                    raise UnreadableInput(f"{self.file.name}: {_what(fault)}", "export it flat") from fault
                except ValueError as fault:
                    part = handle.read(max(1 << 20, len(window)))
                    more = part != ""
                    if not more or len(window) > LARGEST_WHOLE:
                        raise UnreadableInput(
                            f"{self.file.name}: broken JSON: {_what(fault)}; what stood before it was read",
                            "export the comments again",
                        ) from fault
                    window += part
                else:
                    yield value
                    window = window[end:]


def _int(digits: str) -> int | str:
    """Integers; absurdly long ones stay text, as turning them into numbers takes quadratic time."""
    return int(digits) if len(digits) < 40 else digits


def _what(fault: Exception) -> str:
    return "nested too deeply" if isinstance(fault, RecursionError) else str(fault).replace("\n", " ")
