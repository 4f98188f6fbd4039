"""The measures as lines for a terminal."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

_BAR = 20
RIVAL_MEASURES = (
    ("kinds_macro_f1", "kinds, macro-F1"),
    ("first_type_right", "type of the first ask"),
    ("first_answer_right", "standing answer"),
)


def report(result: Mapping[str, Any]) -> str:
    """The measures as a table for people."""
    lines = []
    if result.get("left_out"):
        lines.append(f"{result['left_out']} comments by the same voices were left out of the learning for this")
    lines = [*lines, f"{result['comments']} labelled comments, {result['share_of_questions']:.0%} ask something"]
    for heading, key in (("as labelled", "as_labelled"), ("at natural proportions", "natural")):
        part = result[key]
        lines += ["", f"{heading}:"]
        lines.append(f"  kinds     macro-F1 {part['kinds']['macro_f1']:.3f}")
        lines += [_row(name, row) for name, row in part["kinds"]["by_kind"].items()]
        asks = part["asks"]
        lines.append(f"  asks      first type right {asks['first_type_right']}, macro-F1 {asks['macro_f1']:.3f}")
        lines += [_row(name, row) for name, row in asks["by_type"].items()]
        m = part["mentions"]
        lines.append(f"  mentions  precision {m['precision']:.3f}, recall {m['recall']:.3f}, F1 {m['f1']:.3f}")
        for name, row in part["held"].items():
            if row["support"]:
                lines.append(f"  {name:<9} held back {row['recall']:.3f} of {row['support']:.0f}")
        if part["answered_with_background"] is not None:
            lines.append(
                f"  medical word in the background, answered all the same: {part['answered_with_background']:.3f}"
            )
        drafts = part["drafts"]
        share, precision = drafts["share_of_answerable_drafted"], drafts["precision"]
        lines.append(f"  drafts    share of answerable {share}, precision {precision}")
    lines += _beside(result["rivals"]) + _answers(result) + _curves(result["reliability"])
    lines += ["", f"drafted though they should not be: {', '.join(result['must_not']) or 'none'}"]
    lines += _taught(result.get("taught"))
    return "\n".join(lines)


def _row(name: str, row: Mapping[str, float]) -> str:
    return (
        f"    {name:<14} P {row['precision']:.3f}  R {row['recall']:.3f}  F1 {row['f1']:.3f}  of {row['support']:.0f}"
    )


def _beside(rivals: Mapping[str, Mapping[str, float | None]]) -> list[str]:
    """Ours and the plain rivals, a row for each measure."""
    lines = [
        "",
        "beside plain search in the same comments and phrasings:",
        " " * 26 + "".join(f"{n:>20}" for n in rivals),
    ]
    for key, words in RIVAL_MEASURES:
        cells = ("" if row[key] is None else f"{row[key]:.3f}" for row in rivals.values())
        lines.append(f"  {words:<24}" + "".join(f"{cell:>20}" for cell in cells))
    return lines


def _answers(result: Mapping[str, Any]) -> list[str]:
    row = result["answers"]
    if not row["judged_asks"]:
        return []
    return [
        "",
        f"standing answers, {row['judged_asks']} asks judged by a reader:",
        f"  first found would be signed {_share(row['first_right'])}, sure enough to give {_share(row['answered'])}",
        f"  replies right and complete {_share(row['right_and_complete'])} of {row['judged_replies']}",
    ]


def _share(value: float | None) -> str:
    return "none" if value is None else f"{value:.3f}"


def _curves(curves: Mapping[str, Mapping[str, Any]]) -> list[str]:
    """Each curve as bars: how much of what was said to be so likely was right."""
    lines = []
    for name, curve in curves.items():
        if curve["points"]:
            lines += ["", f"reliability of {name} (calibration error {curve['error']:.3f}):"]
        for point in curve["points"]:
            bar = "▇" * round(_BAR * point["right"])
            lines.append(f"  said {point['said']:.2f}  right {point['right']:.2f}  {bar:<{_BAR}}  {point['cases']}")
    return lines


def _taught(taught: Mapping[str, Any] | None) -> list[str]:
    """The measures without and with what was taught here."""
    if not taught:
        return []
    lines = ["", f"{taught['examples']} corrections were taught here:", f"{'without':>42}{'with':>10}"]
    for name, (before, after) in taught["measures"].items():
        lines.append(f"  {name:<30}{_share(before):>10}{_share(after):>10}")
    return lines


def headline(part: Mapping[str, Any]) -> dict[str, float | None]:
    """The measures that matter most of one weighting, by their names for people."""
    kinds, held, drafts = part["kinds"]["by_kind"], part["held"], part["drafts"]
    question = kinds.get("question", {})
    return {
        "kinds, macro-F1": part["kinds"]["macro_f1"],
        "questions found": question.get("recall"),
        "of those taken for questions, right": question.get("precision"),
        "type of the first ask": part["asks"]["first_type_right"],
        "ingredients, F1": part["mentions"]["ingredients_f1"],
        "health held back": held["health"]["recall"] if held["health"]["support"] else None,
        "unsafe held back": held["unsafe"]["recall"] if held["unsafe"]["support"] else None,
        "answerable, drafted": drafts["share_of_answerable_drafted"],
        "drafted, answerable": drafts["precision"],
    }


def page_values(result: Mapping[str, Any]) -> dict[str, Any]:
    """What the report's page shows."""
    one, other = headline(result["as_labelled"]), headline(result["natural"])
    found = {type_ for row in result["confusion"].values() for type_ in row}
    return {
        "r": result,
        "headline": [(name, value, other[name]) for name, value in one.items()],
        "columns": [*(type_ for type_ in result["confusion"]), *sorted(found - set(result["confusion"]))],
        "rival_measures": RIVAL_MEASURES,
        "share": lambda value: "" if value is None else f"{value:.3f}",
        "percent": lambda value: f"{value:.0%}",
    }
