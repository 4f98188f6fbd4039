"""What an upload showed: the recipe's items, what was baked, and what its title is about."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from qa.knowledge.facts import Episode
from qa.knowledge.library import Library
from qa.records import Ask, AskType
from qa.stages.extract.dishes import dish_of, symptom_of
from qa.stages.extract.index import NameIndex
from qa.stages.extract.names import find_mentions

# What is asked about the bake that was shown unless another is named; a sum is about no dish.
_OF_THE_BAKE: frozenset[AskType] = frozenset(
    ("swap", "went_wrong", "colour", "storage", "method", "equipment", "scaling", "purpose", "tried")
)


@dataclass(frozen=True, slots=True)
class Shown:
    """What stands under an upload is about it, if it says nothing else.

    Attributes:
        items: what the recipe takes.
        dish: what was baked, in one plain word; ''.
        title: the upload's title.
        named: the items that the title names.
    """

    items: tuple[str, ...] = ()
    dish: str = ""
    title: str = ""
    named: tuple[str, ...] = ()


def shown_in(episode: Episode, index: NameIndex) -> Shown:
    """What an episode showed."""
    return Shown(
        items=tuple(line.item for line in episode.lines),
        dish=dish_of(episode.makes, episode.title),
        title=episode.title,
        named=tuple(dict.fromkeys(mention.item for mention in find_mentions(episode.title, "en", "", index))),
    )


def under(asks: Sequence[Ask], shown: Shown) -> list[Ask]:
    """Asks with what they leave to the upload: the dish, and for the fault that it is about, its ingredients."""
    return [_under(ask, shown) for ask in asks]


def _under(ask: Ask, shown: Shown) -> Ask:
    dish = ask.dish or (shown.dish if ask.type in _OF_THE_BAKE else "")
    its_fault = not ask.items and ask.symptom and ask.symptom == symptom_of(ask.type, shown.title)
    return replace(ask, dish=dish, items=shown.named if its_fault else ask.items)


def replaced_by(used: str, recipe: Sequence[str], library: Library) -> str:
    """What an ingredient would replace in a recipe, by the known swaps or by kinship; '' unless exactly one fits.

    Args:
        used: the item to be used.
        recipe: the items of the episode's recipe.
        library: knows families and swaps.
    """
    own = used.partition(".")[0]
    if not library.has(own):
        return ""
    others = [item for item in recipe if item.partition(".")[0] != own]
    if own in {item.partition(".")[0] for item in recipe}:
        return ""
    kin = [item for item in others if library.swap(item, used)] or [
        item for item in others if library.ingredient(item).family == library.ingredient(own).family
    ]
    return kin[0] if len({item.partition(".")[0] for item in kin}) == 1 else ""
