"""What the commands print for people: plain lines, no boxes, the same content as the JSON."""

from __future__ import annotations

import shlex
import sys
import textwrap
from collections.abc import Mapping, Sequence
from types import TracebackType
from typing import Any

from qa import scoring
from qa.contract import ReadShape, ReplyShape, SumShape, SwapShape, WeighShape
from qa.errors import Problem

_WIDTH = 96


class Progress:
    """A bar on standard error for long work; nothing where that is no terminal."""

    def __init__(self, label: str) -> None:
        self._label = label
        self._shown = sys.stderr.isatty()

    def __enter__(self) -> Progress:
        return self

    def __call__(self, done: int, total: int | None = None) -> None:
        """Say how far it is; a bar where the total is known."""
        if not self._shown:
            return
        bar = ""
        if total:
            filled = min(24, 24 * done // total)
            bar = f" [{'=' * filled}{' ' * (24 - filled)}]"
        sys.stderr.write(f"\r{self._label}{bar} {done:,}{f' of {total:,}' if total else ''} ")
        sys.stderr.flush()

    def __exit__(
        self, kind: type[BaseException] | None, fault: BaseException | None, trace: TracebackType | None
    ) -> None:
        if self._shown:
            sys.stderr.write("\n")


def wrapped(text: str, indent: str = "  ") -> str:
    """A paragraph, indented and wrapped."""
    return textwrap.fill(text, _WIDTH, initial_indent=indent, subsequent_indent=indent, break_on_hyphens=False)


def read(count: ReadShape) -> str:
    """The closing line, and the first rows that were set aside."""
    aside_rows = count["set_aside"]
    stored, known = f"stored {count['stored']:,}", f"already known {count['already_known']:,}"
    lines = [f"rows read {count['rows_read']:,} = {stored} + {known} + set aside {len(aside_rows):,}"]
    lines += [f"  set aside: {row['file']}, row {row['row']}: {row['reason']}" for row in aside_rows[:5]]
    if len(aside_rows) > 5:
        lines.append(f"  and {len(aside_rows) - 5:,} more: levelspoon aside")
    return "\n".join(lines)


def aside(rows: Sequence[Mapping[str, Any]]) -> str:
    """Every row that was set aside."""
    if not rows:
        return "Nothing was set aside."
    return "\n".join(f"{row['file']}, row {row['row']}: {row['reason']}" for row in rows)


_STATUS_WORDS = {
    "drafted": "drafted, ready to read and sign",
    "ask_back": "ask back for what is missing",
    "needs_you": "need you",
    "no_reply": "need no reply",
}


def counts(result: Mapping[str, Any]) -> str:
    """How the comments ended."""
    lines = [f"{result['comments']:,} comments"]
    lines += [f"{n:>8,}  {_STATUS_WORDS.get(status, status)}" for status, n in result["by_status"].items()]
    if result["by_reason"]:
        why = ", ".join(f"{reason.replace('_', ' ')} {n}" for reason, n in result["by_reason"].items())
        lines.append(wrapped(f"Reasons: {why}."))
    return "\n".join(lines)


def topics(rows: Sequence[Mapping[str, Any]]) -> str:
    """Topics as lines with a small bar each."""
    if not rows:
        return "No topics yet. Read an export and draft first."
    most = max(row["asks"] for row in rows)
    lines = []
    for row in rows:
        bar = "▪" * max(1, round(20 * row["asks"] / most))
        weeks = " ".join(str(n) for n in row["weeks"].values())
        lines.append(f"{row['asks']:>4}  {row['name']:<52.52} {bar:<20}  by week: {weeks}")
        if row["took_in"]:
            lines.append(f"      took in {', '.join(row['took_in'])}")
        if row["parted_from"]:
            lines.append(f"      parted from {row['parted_from']}")
    return "\n".join(lines)


def reply(result: ReplyShape) -> str:
    """One comment's draft with the working of every figure, or the reason for none."""
    lines = [f"status: {result['status'].replace('_', ' ')}"]
    if result["reasons"]:
        lines[0] += f" ({', '.join(reason.replace('_', ' ') for reason in result['reasons'])})"
    lines += ["", wrapped(result["reply"], "")] if result["reply"] else []
    if result["part"]:
        lines += ["", "The part that can be answered, for your use:", wrapped(result["part"])]
    if result["note"]:
        lines += ["", f"For you: {result['note']}"]
    seen: set[str] = set()
    for figure in result["figures"]:
        if figure["working"] not in seen:
            seen.add(figure["working"])
            lines += ["", f"  {figure['text']}: " + figure["working"].replace("\n", "\n    ")]
            lines += [f"    from {', '.join(figure['facts'])}"] if figure["facts"] else []
    if result["cautions"]:
        lines += ["", f"Cautions: {', '.join(result['cautions'])}"]
    return "\n".join(lines)


def sum_(result: SumShape) -> str:
    """A sum with its working and the facts behind it."""
    name = f"{result['ingredient']}, {result['form'].replace('-', ' ')}" if result["form"] else result["ingredient"]
    lines = [f"{result['amount']} ({name}): {result['text']}"]
    if result["low"] != result["high"]:
        lines[0] += f"   (range {result['low']:.4g} to {result['high']:.4g} {result['unit']})"
    lines += [f"  {line}" for line in result["working"].splitlines()]
    lines += [f"  {result['assumed']}"] if result["assumed"] else []
    lines += [f"  from {fact}" for fact in result["facts"]]
    return "\n".join(lines)


def weigh(result: WeighShape) -> str:
    """A weight with what other sources have, and where they disagree."""
    lines = [sum_(result)]
    for other in result["others"]:
        packing = f", {other['packing']}" if other["packing"] not in ("", "not stated") else ""
        lines.append(wrapped(f"by {other['source']}: {other['text']}{packing}"))
    if result["disagreement"]:
        lines.append(wrapped(result["disagreement"]))
    return "\n".join(lines)


def swap(result: SwapShape) -> str:
    """A swap with what changes and when not to do it."""
    lines = [sum_(result).replace(")", f") → {result['for_ingredient']}, {result['for_form'].replace('-', ' ')}", 1)]
    for label, words in (
        ("changes", result["changes"]),
        ("holds for", result["holds"]),
        ("also", result["extra"]),
        ("not when", result["not_when"]),
        ("yeasts", result["references"]),
    ):
        if words:
            lines.append(wrapped(f"{label}: {words}"))
    return "\n".join(lines)


def check(problems: Sequence[Problem], counted: Mapping[str, Any] | None) -> str:
    """All problems with file, line and remedy, then the counts if wanted."""
    lines = [str(problem) for problem in problems]
    lines.append(
        f"{len(problems)} problem{'s' * (len(problems) != 1)}" if problems else "No problems. The larder is in order."
    )
    if counted:
        for name, value in counted.items():
            if isinstance(value, Mapping):
                lines.append(f"  {name.replace('_', ' ')}:")
                lines += [f"    {n:>6}  {what}" for what, n in value.items()]
            else:
                lines.append(f"  {value:>6}  {name.replace('_', ' ')}")
    return "\n".join(lines)


def plans(rows: Sequence[Mapping[str, Any]]) -> str:
    """Open questions with the test that would answer each."""
    if not rows:
        return "No open question is waiting for a test."
    blocks = []
    for i, row in enumerate(rows, 1):
        blocks.append(
            "\n".join(
                [
                    f"{i}. {row['question']}: {row['askers']} ask, {row['growth_words']}; {row['known_words']}",
                    wrapped(f"to test: {row['hypothesis']}", "   "),
                    wrapped(f"levels: {' | '.join(row['levels'])}; dose: {row['dose']}", "   "),
                    wrapped(f"hold constant: {', '.join(row['constant'])}", "   "),
                    wrapped(f"read: {', '.join(row['read'])}", "   "),
                    wrapped(f"effort: {row['effort_words']}, {_runs(row)} ({row['repeats']['working']})", "   "),
                    f"   on paper: levelspoon trial --plan {shlex.quote(row['topic'])}",
                ]
            )
        )
    return "\n\n".join(blocks)


def _runs(row: Mapping[str, Any]) -> str:
    return f"{row['repeats']['text']} of each, {row['bakes']['text']} in all"


def owed(rows: Mapping[str, Sequence[Mapping[str, Any]]]) -> str:
    """What is owed to viewers."""
    lines = []
    for heading, key in (
        ("Now answerable", "answerable"),
        ("Sent, but what it rested on has changed", "corrections"),
        ("Video and written recipe disagree", "conflicts"),
    ):
        if rows[key]:
            lines.append(f"{heading}: {len(rows[key])}")
            lines += [wrapped(f"{row['what']} ({', '.join(row['comments'])})") for row in rows[key]]
    return "\n".join(lines) or "Nothing is owed."


def score(result: Mapping[str, Any]) -> str:
    """The measures as a table."""
    return scoring.report(result)


_DEMO = """
Quillberry Test Kitchen is invented: its episodes, viewers, comments and readings are made up.

{counts}

{drafted} replies are ready to read and sign. {needs_you} comments need you: health and safety first, then
what nobody has measured yet. Nothing is sent; a person signs every word.

In {folder}:
  replies.csv      every comment with its draft, or the reason for none (replies.jsonl for programs)
  tip-sheet.html   the pinned tip sheet, to print (tip-sheet.txt to paste)
  topics.json      what is asked about, week by week
  next.json        which question deserves the next kitchen test, with its plan

Go on:  levelspoon topics --at {folder}
        levelspoon next --at {folder}
        levelspoon trial --at {folder}
        levelspoon ask "how many grams is 3 tbsp of ground flaxseed?" """


def demo(result: Mapping[str, Any]) -> str:
    """The demo's closing summary."""
    by_status = result["counts"]["by_status"]
    return _DEMO.format(
        counts=counts(result["counts"]),
        drafted=by_status.get("drafted", 0),
        needs_you=by_status.get("needs_you", 0),
        folder=result["folder"],
    ).rstrip()


def look_shape(preview: Any) -> dict[str, Any]:
    """What was found in a file, for programs."""
    import dataclasses

    return dataclasses.asdict(preview)


def look(preview: Any) -> str:
    """What was found in a file, for people."""
    return str(preview)
