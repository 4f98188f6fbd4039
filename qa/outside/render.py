"""Jinja2 and the number gate: a template may write a number only as a figure, and the gate notes where it stands.

>>> gate = Gate()
>>> flax = Figure("21 g", 21, 20, 22, "g", ("flax.ground.bulk-density.usda-sr26",))
>>> page = gate.write("That is {{ mass }} of it.", {"mass": flax})
>>> page.text, page.placed[0].start
('That is 21 g of it.', 8)
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from jinja2 import DictLoader, FileSystemLoader, StrictUndefined, TemplateError
from jinja2.sandbox import ImmutableSandboxedEnvironment

from qa.errors import LevelspoonError
from qa.records import Figure, Numbered, Placed

# Private-use characters mark where a figure or a name with a numeral begins and ends while a text is being composed.
_OPEN, _CLOSE = "\ue000", "\ue001"
_SEALED = re.compile(f"{_OPEN}([\ue100-\uf8ff]){_CLOSE}")
_FIRST = 0xE100
_MOST = 0xF8FF - _FIRST
# What a template written by hand can raise besides Jinja2's own errors.
_FAULTS = (TemplateError, ArithmeticError, AttributeError, LookupError, TypeError, ValueError)
_PRIVATE = re.compile("[\ue000-\uf8ff]")


@dataclass(frozen=True, slots=True)
class Page:
    """A finished text with its figures in place and the spans of names that hold numerals."""

    text: str
    placed: tuple[Placed, ...]
    names: tuple[tuple[int, int], ...]


class BadTemplate(LevelspoonError):
    """A template that cannot be rendered, or that tried to write a number past the gate."""


class Gate:
    """One text being composed; all templates written through it share one list of figures."""

    def __init__(self, folder: Path | None = None) -> None:
        self._sealed: list[Figure | Numbered] = []
        self._written: set[str] = set()
        self._folder = folder

    def part(self, source: str, values: Mapping[str, Any]) -> str:
        """Render a template's source; the result still carries its seals and can be a value of another template."""
        try:
            environment = _environment(self._folder)
            return self._note(environment.from_string(source).render(self._sealing(values)))
        except _FAULTS as fault:
            raise BadTemplate(f"a template cannot be rendered: {fault}", "mend the answer's body") from fault

    def file(self, name: str, values: Mapping[str, Any]) -> str:
        """The same for a template file of the templates folder."""
        try:
            return self._note(_environment(self._folder).get_template(name).render(self._sealing(values)))
        except _FAULTS as fault:
            raise BadTemplate(f"templates/{name} cannot be rendered: {fault}", "mend the template") from fault

    def write(self, source: str, values: Mapping[str, Any]) -> Page:
        """Render and unseal in one step."""
        return self.unseal(self.part(source, values))

    def _note(self, text: str) -> str:
        tidy = _tidy(text)
        self._written.add(tidy)
        return tidy

    def unseal(self, text: str) -> Page:
        """Put every figure's own text where its seal stands and note the places."""
        out: list[str] = []
        placed: list[Placed] = []
        names: list[tuple[int, int]] = []
        length = 0
        for i, piece in enumerate(_SEALED.split(text)):
            sealed = self._sealed[ord(piece) - _FIRST] if i % 2 else None
            shown = sealed.text if isinstance(sealed, Figure) else str(sealed) if sealed is not None else piece
            if isinstance(sealed, Figure):
                placed.append(Placed(sealed, length, length + len(shown)))
            elif sealed is not None:
                names.append((length, length + len(shown)))
            out.append(shown)
            length += len(shown)
        return Page("".join(out), tuple(placed), tuple(names))

    def _sealing(self, values: Mapping[str, Any]) -> dict[str, Any]:
        """The values, with the seal that `finalize` calls for what a template prints; forged seals are taken out."""
        return {name: self._honest(value) for name, value in values.items()} | {"_seal": self._seal}

    def _honest(self, value: Any) -> Any:
        """Text that holds seals this gate did not set loses them: a viewer's words cannot pose as a figure."""
        if type(value) is str and _OPEN in value and value not in self._written:
            return _PRIVATE.sub("", value)
        return value

    def _seal(self, value: Figure | Numbered) -> str:
        if len(self._sealed) >= _MOST:
            raise BadTemplate("too many figures in one text", "split the text")
        self._sealed.append(value)
        return f"{_OPEN}{chr(_FIRST + len(self._sealed) - 1)}{_CLOSE}"


def _tidy(text: str) -> str:
    """One line with single spaces, no space before punctuation."""
    return re.sub(r" +([.,;:!?])", r"\1", " ".join(text.split()))


@cache
def _environment(folder: Path | None) -> ImmutableSandboxedEnvironment:
    import jinja2

    def gate(context: Any, value: Any) -> Any:
        if isinstance(value, Figure | Numbered):
            seal: Callable[[Any], str] = context["_seal"]
            return seal(value)
        if isinstance(value, int | float) and not isinstance(value, bool):
            raise BadTemplate(f"a template printed the bare number {value}", "print a figure instead")
        return value

    return ImmutableSandboxedEnvironment(
        loader=FileSystemLoader(folder) if folder else DictLoader({}),
        finalize=jinja2.pass_context(gate),
        undefined=StrictUndefined,
        autoescape=False,
        keep_trailing_newline=False,
    )


def html_page(folder: Path, name: str, values: Mapping[str, Any]) -> str:
    """A page from a template file; everything printed is escaped. Its numbers were vouched for before."""
    environment = ImmutableSandboxedEnvironment(
        loader=FileSystemLoader(folder),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    try:
        return environment.get_template(name).render(values)
    except _FAULTS as fault:
        raise BadTemplate(f"templates/{name} cannot be rendered: {fault}", "mend the template") from fault
