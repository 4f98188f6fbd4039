"""Plots for export, by matplotlib: forests of sources and readings of trials, as SVG or PNG. Same input, same bytes."""

from __future__ import annotations

import io
from collections.abc import Callable, Sequence
from typing import Any

from qa.errors import LevelspoonError
from qa.knowledge.agreement import Agreement
from qa.measures.show import plain, unit_name
from qa.trials.readings import Quantity

FORMS = ("svg", "png")
_ROW, _HEAD, _WIDTH = 0.3, 1.1, 8.0  # inches
_PENCIL = "#6b6660"
_INK = {"agree": "#2e5d4b", "differ for a stated reason": "#8a6d1f", "differ": "#9c3d2e"}


def forest_plot(title: str, agreements: Sequence[Agreement], form: str = "svg") -> bytes:
    """One panel for each property that several sources give: every fact with its range, the verdict beside the name.

    Args:
        title: above all panels.
        agreements: as `qa.knowledge.told.compared` gives them.
        form: 'svg' (text stays text) or 'png'.

    Raises:
        LevelspoonError: no property has several sources, or there is no such form.
    """
    if not agreements:
        raise LevelspoonError(f"no property of {title} has several sources", "there is nothing to compare")
    heights = [_HEAD + _ROW * len(one.rows) for one in agreements]
    return _drawn(f"{title}: what the sources say, with about 95 % ranges", agreements, _panel, heights, form)


def readings_plot(title: str, quantities: Sequence[Quantity], form: str = "svg") -> bytes:
    """One panel for each quantity: every reading as a dot, the means with their ranges, level under level.

    Args:
        title: above all panels.
        quantities: as `qa.trials.readings.read` gives them.
        form: 'svg' (text stays text) or 'png'.

    Raises:
        LevelspoonError: nothing was read, or there is no such form.
    """
    if not quantities:
        raise LevelspoonError(f"{title} has no readings", "there is nothing to draw")
    heights = [_HEAD + _ROW * len(one.levels) for one in quantities]
    return _drawn(f"{title}: readings, and means with about 95 % ranges", quantities, _readings_panel, heights, form)


def _drawn(
    title: str, parts: Sequence[Any], panel: Callable[[Any, Any], None], heights: list[float], form: str
) -> bytes:
    """Panels below one another, as the bytes of a file."""
    if form not in FORMS:
        raise LevelspoonError(f"no plot is called {form!r}", f"name the file .{' or .'.join(FORMS)}")
    import matplotlib as mpl
    from matplotlib.figure import Figure

    with mpl.rc_context(
        {"svg.fonttype": "none", "svg.hashsalt": "levelspoon", "font.size": 9, "text.parse_math": False}
    ):
        drawing = Figure(figsize=(_WIDTH, sum(heights) + 0.5), layout="constrained")
        drawing.suptitle(title, fontsize=11)
        panels = drawing.subplots(len(parts), 1, squeeze=False, gridspec_kw={"height_ratios": heights})
        for axes, part in zip(panels[:, 0], parts, strict=True):
            panel(axes, part)
        written = io.BytesIO()
        drawing.savefig(written, format=form, metadata={"Date": None} if form == "svg" else {"Software": None}, dpi=150)
    return written.getvalue()


def _readings_panel(axes: Any, one: Quantity) -> None:
    """Readings beside the mean of each level; a single reading has no range, for nobody knows how it repeats."""
    levels = one.levels[::-1]
    for height, level in enumerate(levels):
        # Dots are spread a little, so that equal readings are seen to be several.
        last = len(level.values) - 1
        heights = [height + 0.16 * (place - last / 2) / max(1, last) for place in range(last + 1)]
        axes.plot(level.values, heights, "o", markersize=3.5, color=_PENCIL, alpha=0.7, clip_on=False)
        if not level.single:
            low, high = level.ends
            mean = level.mean.value
            reach = [[mean - low], [high - mean]]
            axes.errorbar(
                [mean], [height], xerr=reach, fmt="D", markersize=4, color=_INK["agree"], capsize=3, clip_on=False
            )
    labels = [f"{level.name}: {level.figure.text}{' (a single reading)' if level.single else ''}" for level in levels]
    axes.set_yticks(range(len(levels)), labels)
    axes.set_ylim(-0.6, len(levels) - 0.4)
    axes.set_xlabel(unit_name(one.unit, 2.0) or "ratio")
    axes.set_title(one.name, loc="left", fontsize=9)
    axes.spines[["top", "right"]].set_visible(False)


def _panel(axes: Any, one: Agreement) -> None:
    rows, ink = one.rows[::-1], _INK[one.verdict]
    heights = range(len(rows))
    values = [row.value for row in rows]
    reach = [[row.value - row.low for row in rows], [row.high - row.value for row in rows]]
    # Nothing is clipped: names of clip paths differ from run to run.
    axes.errorbar(values, heights, xerr=reach, fmt="D", markersize=4, color=ink, capsize=3, clip_on=False)
    axes.set_yticks(heights, [f"{row.label}: {plain(row.value)}" for row in rows])
    axes.set_ylim(-0.6, len(rows) - 0.4)
    axes.set_xlabel(unit_name(one.unit, 2.0) or "ratio")
    axes.set_title(
        f"{one.property} of {one.item}: {one.verdict} (normalised error {one.error:.2g})", loc="left", fontsize=9
    )
    axes.spines[["top", "right"]].set_visible(False)
