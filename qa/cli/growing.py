"""What the commands that let the knowledge grow print for people."""

from __future__ import annotations

from collections.abc import Sequence

from qa.contract import ImportShape, ProposalShape

_STATES = {"written": "written", "there already": "there already, left as it is", "shown": ""}


def learn(found: Sequence[ProposalShape]) -> str:
    """What is lacking, most asked first; with the files themselves where they were not written."""
    if not found:
        return "Nothing is lacking that enough comments ask for. Read and draft first, or lower --least."
    lines = []
    for one in found:
        state = _STATES[one["state"]]
        lines.append(f"{one['asks']:>4} ask  {one['what']}")
        lines.append(f"          {one['file']}" + (f" ({state})" if state else ""))
        if one["state"] == "shown":
            lines += ["", *(f"    {line}".rstrip() for line in one["text"].splitlines()), ""]
    if any(one["state"] != "shown" for one in found):
        lines.append("None of it counts yet: fill a file in, move it out of proposed/, then levelspoon check.")
    return "\n".join(lines)


def imported(found: ImportShape, *, dry_run: bool) -> str:
    """What a table gave, file by file, and what could not be taken."""
    verb = "would add" if dry_run else "added"
    known = f"{found['already_known']:,} were there already"
    lines = [f"rows read {found['rows_read']:,}; {verb} {found['facts']:,} facts; {known}"]
    for file, text in found["files"].items():
        lines.append(f"  {file}: {len(text.splitlines())} facts")
        if dry_run:
            lines += [f"  {line}" for line in text.splitlines()]
    for one in found["problems"]:
        lines.append(f"{one['file']}:{one['line']}: {one['message']}\n    do: {one['remedy']}")
    return "\n".join(lines)
