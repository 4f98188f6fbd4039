"""What `levelspoon trial` prints for people."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from qa.cli.printed import wrapped
from qa.contract import PlannedShape, QuantityShape, SuspectShape, SuspectsShape, TrialLineShape, TrialShape
from qa.measures.show import plain, unit_name

_INVENTED = "Invented for demonstration: no such test was run."
_MOST_ASKED, _MOST_ROWS = 5, 20
_STATES = {
    "written": "The file for its readings is written: {file}",
    "there already": "The file for its readings is there already and stays as it is: {file}",
    "shown": "No file was written; the readings would go to {file}",
}


def listed_(rows: Sequence[TrialLineShape]) -> str:
    """Every trial in a line or two."""
    if not rows:
        return "No trial lies in knowledge/trials/ yet. `levelspoon next` says what deserves one."
    lines = []
    for row in rows:
        invented = " (invented)" if row["invented"] else ""
        lines.append(f"{row['id']:<24} {row['date'] or 'no date':<11} {row['title']}{invented}")
        single = f", {row['single']} of them single" if row["single"] else ""
        told = f"{' | '.join(row['levels'])}; {row['readings']} readings{single}; fair test: {row['fair']}"
        lines.append(wrapped(told, " " * 25))
    return "\n".join(lines)


def report(found: TrialShape) -> str:
    """One trial: its readings, whether it was fair, how it agrees with what was known."""
    blocks = ["\n".join(_head(found))]
    blocks += ["\n".join(_quantity(one)) for one in found["quantities"]]
    if found["effects"]:
        blocks.append("\n".join(_effects(found)))
    if found["single"]:
        blocks.append(
            wrapped(f"Single readings, so nobody knows how well they repeat: {'; '.join(found['single'])}.", "")
        )
    fair = found["fair"]
    blocks.append("\n".join([f"Fair test: {fair['verdict']}", *(wrapped(words) for words in fair["words"])]))
    if found["agreement"]:
        words = [wrapped(words) for one in found["agreement"] for words in one["words"]]
        blocks.append("\n".join(["Beside what was known (they disagree beyond a normalised error of 1)", *words]))
    if found["observations"]:
        seen = [wrapped(f"{one['level']}: {one['words']}") for one in found["observations"]]
        blocks.append("\n".join(["Seen", *seen]))
    return "\n\n".join(blocks)


def _head(found: TrialShape) -> Iterator[str]:
    day = f", {found['date']}" if found["date"] else ""
    yield f"{found['title']} ({found['id']}{day})"
    if found["invented"]:
        yield f"  {_INVENTED}"
    yield wrapped(found["question"])
    yield wrapped(f"{found['factor']}: {' | '.join(found['levels'])}; dose: {found['dose']}")


def _quantity(one: QuantityShape) -> Iterator[str]:
    """A line for each level: readings, mean, spread, how many times the first."""
    unit = unit_name(one["unit"], 2.0)
    yield f"{one['quantity'][:1].upper()}{one['quantity'][1:]}" + (f", in {unit}" if unit else "")
    wide = max(len(level["level"]) for level in one["levels"])
    for level in one["levels"]:
        mean = level["mean"]
        said = ", ".join(plain(value) for value in level["readings"])
        span = f"{_round(mean['low'], level['spread'])} to {_round(mean['high'], level['spread'])}"
        spread = ", a single reading" if level["single"] else f" ± {level['spread']:.2g} ({span})"
        line = f"  {level['level']:<{wide}}  {mean['text']}{spread}"
        if times := level["times_first"]:
            single = level["single"] or one["levels"][0]["single"]
            line += f"; {times['text']} times the first" + (
                "" if single else f", {times['low']:.2f} to {times['high']:.2f}"
            )
        yield f"{line}   from {said}"
    yield wrapped("; ".join(one["words"]) + ".") if one["words"] else "  One level only: nothing to compare."


def _round(value: float, spread: float) -> str:
    """The end of a range to the digits its spread leaves sure."""
    digits = 2 if spread < 0.2 else 1 if spread < 2 else 0
    return f"{value:.{digits}f}"


def _effects(found: TrialShape) -> Iterator[str]:
    yield "What each suspect did (mean with it less mean without)"
    for one in found["effects"]:
        difference, corrected = one["difference"], one["corrected"]
        chance = f"p = {corrected['text']} corrected" if corrected else "no bake was left over to judge chance by"
        yield wrapped(f"{one['suspect']}: {difference['text']} in {one['quantity']} ({chance})")


def suspects(found: SuspectsShape) -> str:
    """A table of suspects, what each says, and what to ask."""
    outcome = found["outcome"]
    if not found["batches"]:
        return f"No result and no trial tells of {outcome!r}. Try green, purple, sunk, dense, gummy, flat or dry."
    own = f", {found['own']} of them our own" if found["own"] else ""
    came = f"it came in {found['had']} of {found['batches']} batches that tell{own}"
    lines = [f"{outcome}: {came}; {found['unsaid']} more results do not say", ""]
    if not found["suspects"]:
        return "\n".join([*lines[:1], "  Nothing was told of often enough to be a suspect."])
    wide = max(len(one["name"]) for one in found["suspects"])
    lines.append(f"  {'':<{wide}}   with it        without it     by the   not")
    lines.append(f"  {'suspect':<{wide}}   came / not     came / not     recipe   told   p corrected")
    lines += [_row(one, wide) for one in found["suspects"][:_MOST_ROWS]]
    if len(found["suspects"]) > _MOST_ROWS:
        lines.append(f"  and {len(found['suspects']) - _MOST_ROWS} more: --json")
    tested = [one for one in found["suspects"] if one["corrected"]]
    told = [one for one in tested if one["goes"] != "cannot tell"]
    lines += ["", *(wrapped(one["words"] + ".") for one in told)]
    if len(tested) > len(told):
        lines.append(
            "  Of the " + ("others that are" if told else "suspects") + " tested, none can be told from chance."
        )
    few = [one["name"] for one in found["suspects"] if not one["corrected"]]
    if few:
        more = f" and {len(few) - _MOST_ROWS} more" if len(few) > _MOST_ROWS else ""
        lines.append(wrapped(f"Too few batches tell of: {'; '.join(few[:_MOST_ROWS])}{more}."))
    lines += ["", "To ask whoever did not say:"]
    questions = dict.fromkeys(one["question"] for one in found["suspects"])
    lines += [wrapped(question) for question in list(questions)[:_MOST_ASKED]]
    foot = (
        "What goes with an outcome need not cause it: most reports changed several things at once, and whoever says "
        "nothing of an ingredient counts as having followed the recipe. Fisher's exact test, with Holm's correction."
    )
    return "\n".join([*lines, "", wrapped(foot, "")])


def _row(one: SuspectShape, wide: int) -> str:
    with_ = f"{one['with_had']:>4} / {one['with_not']:<4}"
    without = f"{one['without_had']:>4} / {one['without_not']:<4}"
    chance = one["corrected"]["text"] if one["corrected"] else "too few"
    return (
        f"  {one['name']:<{wide}}   {with_}    {without}    {one['by_recipe']:>6}   {one['not_reported']:>4}   {chance}"
    )


def planned(found: PlannedShape) -> str:
    """Where the readings of a planned test go."""
    return _STATES[found["state"]].format(file=found["file"])
