"""`ask --explain`: each step from a comment to its draft, for people."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from qa.cli.printed import wrapped

_STEPS = {"mojibake": "letters decoded anew", "zero width": "invisible marks", "shouting": "it shouts"}


def explained(result: Mapping[str, Any]) -> str:
    """What was cleaned, split, found, matched and computed, and why it fell silent where it did."""
    repaired = ", ".join(_STEPS.get(step, step) for step in result["repaired"])
    lines = [
        f"Cleaned{f' ({repaired})' if repaired else ''}, language {result['language']}:",
        wrapped(result["cleaned"]),
    ]
    lines += ["", "Split, with what each part does:"]
    lines += [f"  {_kinds(piece['kinds']):<28} {' '.join(piece['text'].split())}" for piece in result["pieces"]]
    lines += ["", "Ingredients found:"]
    lines += [_mention(mention) for mention in result["mentions"]] or ["  none"]
    for place, (ask, match) in enumerate(zip(result["asks"], result["matched"], strict=True), start=1):
        lines += ["", *_ask(place, ask), *_match(match, result["cut_off"])]
    if not result["asks"]:
        lines += ["", "Nothing is asked."]
    if result["figures"]:
        lines += ["", "Worked out:"]
        lines += [f"  {f['text']}: " + f["working"].replace("\n", "\n    ") for f in _distinct(result["figures"])]
    return "\n".join([*lines, "", *_outcome(result["draft"])])


def _kinds(kinds: Mapping[str, float]) -> str:
    return ", ".join(f"{kind} {sure:.2f}" for kind, sure in kinds.items()) or "nothing told"


def _mention(mention: Mapping[str, Any]) -> str:
    form = mention["form"].replace("-", " ") or "form left open"
    amount = mention["amount"]
    said = f", {amount['value']:g} {amount['unit']}".rstrip() if amount else ""
    return f"  {mention['text']}: {mention['ingredient'].replace('-', ' ')}, {form}{said} ({mention['sureness']:.2f})"


def _ask(place: int, ask: Mapping[str, Any]) -> list[str]:
    """What was understood of one ask."""
    about = (" → " if ask["type"] == "swap" else ", ").join(
        item.replace(".", ", ").replace("-", " ") for item in ask["items"]
    ) or "no ingredient named"
    known = [f"{name} {ask[name]}" for name in ("dish", "symptom", "region") if ask[name]]
    if ask["medical"]:
        known.append("a medical word in the background")
    words = " ".join(ask["text"].split())
    head = f"Ask {place}: {ask['type'].replace('_', ' ')} (sure {ask['sureness']:.2f}): {words}"
    return [head, f"  about {about}{'; ' if known else ''}{', '.join(known)}"]


def _match(match: Mapping[str, Any], cut_off: float) -> list[str]:
    """Which standing answers came near, and what was decided."""
    others = ", ".join(f"{answer} {sure:.2f}" for answer, sure in match["runners_up"].items())
    if match["answer"]:
        lines = [f"  answered by {match['answer']} (sure {match['sureness']:.2f})"]
        return [*lines, f"  next nearest: {others}"] if others else lines
    why = match["reason"].replace("_", " ")
    if match["reason"] == "unsure":
        why = f"unsure: {match['sureness']:.2f} is below the cut-off {cut_off:.2f}"
    return [f"  silent, {why}", f"  nearest: {others or 'no standing answer'}"]


def _outcome(draft: Mapping[str, Any]) -> list[str]:
    status = draft["status"].replace("_", " ")
    why = f" ({', '.join(reason.replace('_', ' ') for reason in draft['reasons'])})" if draft["reasons"] else ""
    lines = [f"So: {status}{why}"]
    lines += [f"For you: {draft['note']}"] if draft["note"] else []
    return lines + (["", wrapped(draft["reply"], "")] if draft["reply"] else [])


def _distinct(figures: Sequence[Mapping[str, Any]]) -> list[Mapping[str, Any]]:
    return list({figure["working"]: figure for figure in figures}.values())
