"""What `levelspoon facts` prints: every fact by tier, then how the sources of each property agree."""

from __future__ import annotations

from collections.abc import Iterator

from qa.cli.bars import forest
from qa.cli.printed import wrapped
from qa.contract import AgreementShape, FactsShape, HeldFactShape, HeldSwapShape
from qa.measures.show import plain, unit_name

_TIERS = {
    "measured": "Measured in our kitchen",
    "published": "Published",
    "common practice": "Common practice",
    "viewers' reports": "Viewers' reports",
}


def facts(found: FactsShape) -> str:
    """Everything known of an ingredient, the strongest tier first."""
    item = f"{found['ingredient']}.{found['form']}" if found["form"] else found["ingredient"]
    blocks = [f"{found['name']} ({item})"]
    for tier, held in found["tiers"].items():
        blocks.append("\n".join([_TIERS[tier], *(line for fact in held for line in _fact(fact, found["form"]))]))
    if not found["tiers"]:
        blocks.append("No facts yet.")
    if found["swaps"]:
        blocks.append("\n".join(["Can be replaced", *(line for swap in found["swaps"] for line in _swap(swap))]))
    if found["agreement"]:
        told = "Where several sources speak (ranges: about 95 %, with what printed digits leave out)"
        blocks.append("\n\n".join([told, *("\n".join(_agreement(one)) for one in found["agreement"])]))
    if cited := {fact["citation"]: None for held in found["tiers"].values() for fact in held}:
        blocks.append("\n".join(["Sources", *(wrapped(citation) for citation in cited)]))
    return "\n\n".join(blocks)


def _fact(fact: HeldFactShape, asked: str) -> Iterator[str]:
    """The fact with spread and conditions; below it where it is from and where it stands."""
    spread = f" ± {fact['spread']:.2g}" if fact["spread"] else ""
    form = fact["item"].partition(".")[2]
    head = f"{form}, {fact['property']}" if form and not asked else fact["property"]
    said = [f"{name.replace('_', ' ')}: {text}" for name, text in fact["conditions"].items()]
    yield wrapped("; ".join([f"{head}: {fact['text']}{spread}", *said, *([fact["note"]] if fact["note"] else [])]))
    where = f"{fact['short']}, {fact['where']}" if fact["where"] else fact["short"]
    yield wrapped(f"{where} ({fact['file']}:{fact['line']})", "      ")


def _swap(swap: HeldSwapShape) -> Iterator[str]:
    spread = f" ± {swap['spread']:.2g}" if swap["spread"] else ""
    ratio = f"{plain(swap['ratio'])}{spread} of {swap['use']} for one of {swap['replace']}, by {swap['by']}"
    yield wrapped(f"{ratio} ({swap['tier']})")
    words = [f"{key.replace('_', ' ')}: {swap[key]}" for key in ("holds", "changes", "extra", "not_when") if swap[key]]
    if words:
        yield wrapped("; ".join(words), "      ")
    yield f"      {swap['file']}:{swap['line']}"


def _agreement(one: AgreementShape) -> Iterator[str]:
    unit = unit_name(one["unit"], 2.0)
    yield f"  {one['property']} of {one['item']}" + (f", in {unit}" if unit else "")
    yield from (f"    {line}".rstrip() for line in forest(one["rows"]))
    verdict = "the sources agree" if one["verdict"] == "agree" else f"the sources {one['verdict']}"
    yield f"    {verdict} (normalised error {one['normalised_error']:.2g}; they disagree beyond 1)"
    if one["words"]:
        yield wrapped(one["words"], "    ")
