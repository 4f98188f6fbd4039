"""Small drawings as inline SVG: forest plots, bars, weeks. Colours come from the style sheet, so they fit both schemes.

Every drawing is named for a screen reader and says in text what it shows.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from markupsafe import Markup, escape

from qa.measures.show import plain

_ROW, _LABEL, _WIDTH, _EDGE = 20, 132, 320, 10


@dataclass(frozen=True, slots=True)
class Row:
    """One line of a forest plot: a value with its range, all in one unit.

    Attributes:
        used: it is the one that the figure leans on.
    """

    label: str
    low: float
    value: float
    high: float
    used: bool = False


def forest(rows: Sequence[Row], unit: str) -> Markup:
    """Values of several sources under one another, each with its range; empty for fewer than two.

    >>> "7 g" in forest([Row("table", 6, 7, 8, True), Row("weighed here", 9, 10, 11)], "g")
    True
    """
    if len(rows) < 2:
        return Markup("")
    low, high = min(r.low for r in rows), max(r.high for r in rows)
    width = (high - low) or abs(high) or 1.0

    def across(value: float) -> float:
        return round(_LABEL + _EDGE + (value - low) / width * (_WIDTH - _LABEL - 2 * _EDGE), 1)

    said = "; ".join(f"{r.label} {plain(r.value)} {unit}, {plain(r.low)} to {plain(r.high)}" for r in rows)
    foot = _ROW * len(rows)
    parts = [
        Markup('<svg class="forest" viewBox="0 0 {} {}" role="img" aria-label="{}">').format(
            _WIDTH, foot + 18, f"Sources differ: {said}"
        )
    ]
    for i, row in enumerate(rows):
        parts.append(_line(row, _ROW * i + _ROW / 2, across))
    parts.append(
        Markup(
            '<path class="axis" d="M{} {}H{}"/><text class="tick" x="{}" y="{}">{}</text>'
            '<text class="tick end" x="{}" y="{}">{} {}</text></svg>'
        ).format(
            _LABEL, foot, _WIDTH, _LABEL + _EDGE, foot + 14, f"{low:.3g}", _WIDTH - 2, foot + 14, f"{high:.3g}", unit
        )
    )
    return Markup("").join(parts)


def _line(row: Row, y: float, across: object) -> Markup:
    assert callable(across)  # noqa: S101
    mark = "used" if row.used else ""
    label = row.label if len(row.label) <= 21 else f"{row.label[:20]}…"
    x = across(row.value)
    blob = (
        Markup('<path class="blob" d="M{} {}l5 5l-5 5l-5-5z"/>').format(x, y - 5)
        if row.used
        else Markup('<circle class="blob" cx="{}" cy="{}" r="3.5"/>').format(x, y)
    )
    return Markup('<g class="{}"><text x="0" y="{}">{}</text><path class="span" d="M{} {}H{}"/>{}</g>').format(
        mark, y + 4, label, across(row.low), y, across(row.high), blob
    )


def bar(share: float) -> Markup:
    """A pencil stroke as long as a share of 0 to 1; hidden from screen readers, for the number stands beside it."""
    length = max(2, round(120 * max(0.0, min(1.0, share))))
    return Markup(
        '<svg class="bar" viewBox="0 0 122 10" aria-hidden="true"><path d="M1 6c{} -2 {} 2 {} -1"/></svg>'
    ).format(round(length / 3), round(length / 1.5), length)


def weeks(counts: Sequence[tuple[str, int]]) -> Markup:
    """Asks per week as strokes of a tally, oldest first; the figures are in its name.

    >>> 'aria-label="3 in 2026-W10, 1 in 2026-W11"' in weeks([("2026-W10", 3), ("2026-W11", 1)])
    True
    """
    if not counts:
        return Markup("")
    shown = counts[-26:]
    most = max(count for _, count in shown) or 1
    said = ", ".join(f"{count} in {week}" for week, count in shown)
    strokes = Markup("").join(
        Markup("M{} 24v-{}").format(4 + 7 * i, max(1, round(20 * count / most))) for i, (_, count) in enumerate(shown)
    )
    return Markup(
        '<svg class="weeks" viewBox="0 0 {} 26" width="{}" role="img" aria-label="{}"><path d="{}"/></svg>'
    ).format(8 + 7 * len(shown), 8 + 7 * len(shown), escape(said), strokes)
