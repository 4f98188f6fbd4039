"""What viewers' results say of an outcome: whether it came, and which of the suspects were there.

A report that tells of several bakes is cut where its outcome changes: "with lemon they stayed brown; without, green".
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from typing import NamedTuple

from qa.knowledge.facts import Episode
from qa.knowledge.library import Library
from qa.measures.measure import Measure
from qa.measures.parse import find_amounts
from qa.records import Mention, Understood
from qa.stages.extract.dishes import tells_of
from qa.stages.extract.frames import marked
from qa.stages.extract.shown import replaced_by
from qa.text.pairs import pair_in
from qa.text.phrases import phrases
from qa.trials.suspects import LESS, Batch, with_ingredients

_NOT = phrases(
    """no | not | never | without | isn't | wasn't | weren't | aren't | didn't | don't | doesn't | hardly | barely |
    none | nothing | zero | free of | instead of | left out | leave out | skip* | omit* | forgot | out of"""
)
_LESS = phrases("half | halv* | less | quarter | dropped | reduc* | cut | scant | third of | fewer")
# What says as much as that the outcome did not come; the colours of a bake that kept its own.
_OTHERWISE = {
    "green": phrases("brown | beige | tan | golden"),
    "purple": phrases("white | golden | brown | cream colou?red"),
    "grey": phrases("white | golden | brown"),
    "sunk": phrases("rose | risen | domed | stayed up"),
    "flat": phrases("rose | risen | puffed | domed | tall"),
    "dense": phrases("light | airy | fluffy | open crumb"),
    "gummy": phrases("dry inside | clean crumb | cooked through | baked through"),
    "dry": phrases("moist | juicy"),
}
# Circumstances by kind; whoever names one of a kind had none of its others.
_CIRCUMSTANCES = {
    "pan": {
        "glass or ceramic": phrases("glass | ceramic | stoneware"),
        "silicone": phrases("silicone*"),
        "metal": phrases("metal | alumini?um | steel | cast iron | dark (tin|pan)"),
    },
    "oven": {
        "fan": phrases("fan | convection | air ?fryer"),
        "without fan": phrases("no fan | conventional | gas oven | static"),
    },
    "dough": {
        "chilled or rested": phrases("chill* | fridge | refrigerat* | rested | resting | icebox"),
        "frozen": phrases("froze* | freez*"),
        "baked at once": phrases("straight (away|in) | at once | immediately | right away | unrested"),
    },
    "kept": {
        "without air": phrases("vacuum* | vac | airtight | sealed"),
        "in the open": phrases("bowl | uncovered | left out | on the counter"),
    },
    "measured": {
        "by weight": phrases("weigh* | scales? | grams"),
        "levelled": phrases("level* | scraped"),
        "heaped": phrases("heap* | generous | rounded | scoop*"),
    },
    "place": {
        "high up": phrases("altitude | feet | mountain* | elevation"),
        "at sea level": phrases("sea level"),
    },
}
QUESTIONS = {
    "pan": "What was it baked in: metal, glass or silicone?",
    "oven": "Was the fan of the oven on?",
    "dough": "Was the dough chilled or frozen before baking, and for how long?",
    "kept": "How were they kept after baking: in the open, or in a closed box?",
    "measured": "How was it measured: weighed, or with a level or a heaped spoon?",
    "place": "How high above the sea do you bake?",
    "time": "How many minutes were they in the oven?",
    "heat": "At how many degrees did you bake, and was the oven's fan on?",
}
_CLAUSE = re.compile(r"[^,;:.!?\n]+")
_END = re.compile(r"[,;:.!?\n#]")
_WORD = re.compile(r"[^\W\d_][\w'’]*")
_BEFORE = 4  # words in which "no" or "half" still belongs to what follows


# Baking within a tenth of the time shown, or within five degrees, counts as shown. Our own choice, no source.
_NEAR_TIME, _NEAR_HEAT = 0.1, 5.0
_BAKED = phrases("bak(e|es|ed|ing) | oven | fan | air ?fryer | degrees")
_FAN = phrases("fan | convection | air ?fryer")
_LONGEST_BAKE = 180.0  # minutes


class Recipe(NamedTuple):
    """What an upload showed: its items, and how long and how hot it was baked; None where that was done in stages."""

    items: tuple[str, ...] = ()
    minutes: float | None = None
    celsius: float | None = None


def recipe_of(episode: Episode) -> Recipe:
    """The recipe that whoever reports under an upload is taken to have followed."""
    baked = [step for step in episode.steps if _BAKED.search(step)]
    minutes = [minute for step in baked for minute in _minutes(step)]
    heats = [heat for step in baked for heat in _celsius(step)]
    items = tuple(line.item for line in episode.lines)
    return Recipe(items, minutes[0], heats[0]) if len(minutes) == len(heats) == 1 else Recipe(items)


class _Stretch(NamedTuple):
    """A part of a comment about one bake, and whether the outcome came in it."""

    start: int
    end: int
    had: bool


def had_in(outcome: str) -> Callable[[str], bool | None]:
    """Whether words tell that an outcome came; None where they do not speak of it, or say both.

    >>> told = had_in("green")
    >>> told("green by breakfast"), told("not one bit green"), told("brown as a boot"), told("lovely with tea")
    (True, False, False, None)
    """
    places, otherwise = tells_of(outcome), _OTHERWISE.get(outcome)

    def told(words: str) -> bool | None:
        said = {not _negated(words, start) for start in places(words)}
        if not said and otherwise:
            said = {_negated(words, match.start()) for match in otherwise.finditer(words)} - {True}
        return said.pop() if len(said) == 1 else None

    return told


def batches(
    one: Understood,
    outcome: str,
    recipe: Recipe | None,
    library: Library,
    verdict: Callable[[str], str],
) -> list[Batch]:
    """The bakes that a viewer's result tells of; none where it does not say whether the outcome came.

    Args:
        one: what was understood of the comment.
        outcome: a symptom in a plain word ('green'), or any word.
        recipe: what the upload it stands under showed, or None.
        library: families and swaps, for what an ingredient was used in place of.
        verdict: 'good', 'bad' or 'unclear' of a text. Whoever is happy and does not speak of a fault did not have it.
    """
    if not any(kind == "result" for kind, _ in one.kinds):
        return []
    stretches = _stretches(one, had_in(outcome))
    if not stretches and verdict(outcome) == "bad" and verdict(one.text) == "good":
        stretches = [_Stretch(0, len(one.text), False)]
    shown = recipe or Recipe()
    base = None if recipe is None else with_ingredients(recipe.items)
    several = len(stretches) > 1
    return [
        Batch(
            f"{one.comment} ({place})" if several else one.comment,
            stretch.had,
            _told(one, stretch, shown, library),
            base,
        )
        for place, stretch in enumerate(stretches, 1)
    ]


def _told(one: Understood, part: _Stretch, recipe: Recipe, library: Library) -> dict[str, bool]:
    """Every suspect that a part speaks of."""
    text = one.text[part.start : part.end]
    return _ingredients(one, part, recipe.items, library) | _circumstances(text) | _baking(text, recipe)


def _stretches(one: Understood, told: Callable[[str], bool | None]) -> list[_Stretch]:
    """Cut where the outcome changes: before the sentence that says so, or before its clause in the same sentence."""
    found: list[_Stretch] = []
    last = -1
    masked = _masked(one)
    for number, piece in enumerate(one.pieces):
        if any(kind == "question" for kind, _ in piece.kinds) and not any(kind == "result" for kind, _ in piece.kinds):
            continue
        for clause in _CLAUSE.finditer(masked, piece.start, piece.end):
            had = told(clause.group())
            if had is None:
                continue
            if not found:
                found.append(_Stretch(0, len(one.text), had))
            elif found[-1].had != had:
                cut = clause.start() if number == last else piece.start
                found[-1] = found[-1]._replace(end=cut)
                found.append(_Stretch(cut, len(one.text), had))
            last = number
    return found


def _masked(one: Understood) -> str:
    """The text with ingredients crossed out: brown sugar is no brown crumb, and "no" before one belongs to it."""
    letters = list(one.text)
    for mention in one.mentions:
        letters[mention.start : mention.end] = "#" * (mention.end - mention.start)
    return "".join(letters)


def _ingredients(one: Understood, part: _Stretch, recipe: Sequence[str], library: Library) -> dict[str, bool]:
    """Ingredients named in a part: used, used less of, or not used; and what they were used in place of."""
    own = [mention for mention in one.mentions if part.start <= mention.start < part.end]
    replaced = pair_in(marked(one.text, part.start, part.end, own, ())).replaced
    gone = own[replaced] if replaced is not None and replaced < len(own) else None
    told: dict[str, bool] = {}
    for mention in own:
        used = mention is not gone and not _negated(one.text, mention.start)
        told[mention.ingredient] = used or told.get(mention.ingredient, False)
        if mention.form and _in_recipe(mention, recipe) and len(library.ingredient(mention.ingredient).forms) > 1:
            told[mention.item] = used or told.get(mention.item, False)
        if used and _in_recipe(mention, recipe) and _LESS.search(_before(one.text, mention.start)):
            told[f"{LESS}{mention.ingredient}"] = True
        if used and (stood_in_for := replaced_by(mention.item, recipe, library)):
            told.setdefault(stood_in_for.partition(".")[0], False)
    return told


def _in_recipe(mention: Mention, recipe: Sequence[str]) -> bool:
    return any(item.partition(".")[0] == mention.ingredient for item in recipe)


def _circumstances(text: str) -> dict[str, bool]:
    """Circumstances that a text names; the others of the same kind were not there."""
    told: dict[str, bool] = {}
    for kind, ways in _CIRCUMSTANCES.items():
        named = {way for way, pattern in ways.items() if _said(pattern, text)}
        told |= {f"{kind}: {way}": way in named for way in ways if named}
    return told


def _baking(text: str, recipe: Recipe) -> dict[str, bool]:
    """How long and how hot a text says it was baked, beside what was shown."""
    baked = [sentence for sentence in re.split(r"[.!?\n]", text) if _BAKED.search(sentence)]
    minutes = [minute for sentence in baked for minute in _minutes(sentence)]
    heats = [heat for sentence in baked if not _FAN.search(sentence) for heat in _celsius(sentence)]
    told: dict[str, bool] = {}
    if recipe.minutes and len(minutes) == 1:
        told |= _beside("time", minutes[0] / recipe.minutes - 1, _NEAR_TIME, ("longer", "shorter"))
    if recipe.celsius and len(heats) == 1:
        told |= _beside("heat", heats[0] - recipe.celsius, _NEAR_HEAT, ("hotter", "cooler"))
    return told


def _beside(kind: str, more: float, near: float, ways: tuple[str, str]) -> dict[str, bool]:
    return {f"{kind}: {ways[0]} than shown": more > near, f"{kind}: {ways[1]} than shown": more < -near}


def _minutes(text: str) -> list[float]:
    return [amount.value for amount in find_amounts(text) if amount.unit == "min" and amount.value <= _LONGEST_BAKE]


def _celsius(text: str) -> list[float]:
    found = [amount for amount in find_amounts(text) if amount.unit in {"degC", "degF"}]
    return [Measure.exact(amount.value, amount.unit).to("degC").value for amount in found]


def _said(pattern: re.Pattern[str], text: str) -> bool:
    return any(not _negated(text, match.start()) for match in pattern.finditer(text))


def _negated(text: str, start: int) -> bool:
    """Whether "no", "without" and the like stand in the few words before a place, in the same clause."""
    return bool(_NOT.search(_before(text, start)))


def _before(text: str, start: int) -> str:
    """The few words of the clause before a place."""
    clause = _END.split(text[max(0, start - 80) : start])[-1]
    words = list(_WORD.finditer(clause))
    return clause[words[-_BEFORE].start() :] if len(words) > _BEFORE else clause
