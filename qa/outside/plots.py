"""Plots for export, by matplotlib: the same forest as in the terminal, as SVG or PNG bytes. Same input, same bytes."""

from __future__ import annotations

import io
from collections.abc import Sequence
from typing import Any

from qa.errors import LevelspoonError
from qa.knowledge.agreement import Agreement
from qa.measures.show import plain, unit_name

FORMS = ("svg", "png")
_ROW, _HEAD, _WIDTH = 0.3, 1.1, 8.0  # inches
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
    if form not in FORMS:
        raise LevelspoonError(f"no plot is called {form!r}", f"name the file .{' or .'.join(FORMS)}")
    if not agreements:
        raise LevelspoonError(f"no property of {title} has several sources", "there is nothing to compare")
    import matplotlib as mpl
    from matplotlib.figure import Figure

    heights = [_HEAD + _ROW * len(one.rows) for one in agreements]
    with mpl.rc_context(
        {"svg.fonttype": "none", "svg.hashsalt": "levelspoon", "font.size": 9, "text.parse_math": False}
    ):
        drawing = Figure(figsize=(_WIDTH, sum(heights) + 0.5), layout="constrained")
        drawing.suptitle(f"{title}: what the sources say, with about 95 % ranges", fontsize=11)
        panels = drawing.subplots(len(agreements), 1, squeeze=False, gridspec_kw={"height_ratios": heights})
        for axes, one in zip(panels[:, 0], agreements, strict=True):
            _panel(axes, one)
        written = io.BytesIO()
        drawing.savefig(written, format=form, metadata={"Date": None} if form == "svg" else {"Software": None}, dpi=150)
    return written.getvalue()


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
