"""Asks that no standing answer may serve, whatever the likeness: bodies, laws, makers, this very item's safety."""

from __future__ import annotations

from qa.records import Ask
from qa.text.phrases import phrases

_PERSON = phrases(
    """allergic | allergy | allergies | anaphyla* | epi-?pens? | reacts? | co?eliacs? | intoleran* |
        (my|our|his|her) (son|daughter
        |kids?|child|children|husband|wife|mother|mum|mom|dad|father|guests?|friend|sister|brother|niece|nephew|grand*)
        | for (a|someone) | treat .. as | serve | would you"""
)
_THIS_ITEM = phrases(
    """still (safe|ok|okay|good|fine|edible|eat|use|bake|usable) | left .. (out|overnight|counter|bench|car|sun) |
        forgot .. (out|car|counter) | mou?ld* | (gone|went|go) (off|bad) | smells? | expired | past
        (its|the|their) (date|best|use) | best before | use by | rancid | slimy | fuzzy | spots? on | freckles |
        (sat|sitting|been) .. (out|in|on) | weevils? | undercooked | underbaked | raw in the middle | days old |
        nine days | would you still"""
)
_PRESERVING = phrases(
    """canning | water bath | pressure cann* | shelf[ -]stable | (in|into) (a|the)? ?(mason|kilner|pint|sealed)?
        ?jars? | can (the|this|these|my) (cake|bread|muffins?|butter|curd|oil|filling|pesto|pumpkin) | garlic ..
        oil | infused oil"""
)
_INFANT = phrases("""bab(y|ies) | infants? | newborns? | toddlers? | months? old | dogs? | cats? | pupp(y|ies) |
    pregnan*""")
_LEGAL = phrases(
    """legal* | illegal | laws? | lawful* | statutes? | regulation* | liab* | licen[cs]e* | permit | cottage food |
        copyright | health inspector | food standards | allowed to (sell|write|label|put|claim|call) |
        (sell|selling|sold) ... (label*|card |allowed|call it|gluten free|claim) | (label|claim|write) ...
        (sell*|market|stall|shop|law|legally)"""
)
_MAKER = phrases(
    """(which|what) brand | brand is (it|that|this|the) | (milled|made|packed|processed|manufactured|produced) ..
        (facility|factory|place|line) | same (facility|factory|line|equipment) | (is|are) .. certified | lab
        tested | batch number | accurate to"""
)


def forbidden(ask: Ask) -> str:
    """Why an ask must go to a person, one of REASONS, or '' where a standing answer may serve it.

    >>> forbidden(Ask("other", 0, 40, "am I allowed to write egg free on the card"))
    'legal'
    """
    if ask.type == "health":
        return "health"
    if _LEGAL.search(ask.text):
        return "legal"
    if ask.type == "allergy":
        return "maker" if _MAKER.search(ask.text) and not _PERSON.search(ask.text) else "health"
    if ask.type in {"safety", "storage"} and (_THIS_ITEM.search(ask.text) or _PRESERVING.search(ask.text)):
        return "unsafe"
    if ask.type == "safety" and _INFANT.search(ask.text):
        return "health"
    return "maker" if ask.type in {"other", "where_to_buy", "equipment"} and _MAKER.search(ask.text) else ""
