"""What is left to others: questions of bodies, of law, of makers, and whether this very item is still safe.

The grammar is of three kinds: who eats it and what ails them (`bodies`, by `outright` and `baking`), what happened to
the thing or how it is to be kept (`items`, by `states` and `keeping`), who has the say (`laws`). How the phrases are
written: see `qa.text.phrases`.
"""

from qa.knowledge.limits.baking import baking_asked
from qa.knowledge.limits.bodies import alarming, allergy_asked, cause_asked, health_asked, motive_only
from qa.knowledge.limits.items import hazard_asked
from qa.knowledge.limits.laws import legal_asked, maker_asked
from qa.knowledge.limits.words import MEDICAL

__all__ = [
    "MEDICAL",
    "alarming",
    "allergy_asked",
    "baking_asked",
    "cause_asked",
    "hazard_asked",
    "health_asked",
    "legal_asked",
    "maker_asked",
    "motive_only",
]
