"""The source and tier behind each rule id that a sum can put among a figure's facts.

>>> rule("rule:US-CARB-1").tier, rule("rule:PINCH").tier
('published', 'common practice')
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from typing import NamedTuple

from qa.errors import NoKnowledge
from qa.kitchen import eggs, energy, heat, label_rules, leavening, yeast
from qa.measures.resolve import HOUSEHOLD
from qa.measures.show import plain
from qa.records import Tier
from qa.text import nearest


class Rule(NamedTuple):
    """A definition, regulation or constant that is no fact of an ingredient.

    `source` says where it stands; what is from memory or common practice says so, and has that tier.
    """

    id: str
    source: str
    tier: Tier


_AMS = "USDA AMS, United States Standards, Grades, and Weight Classes for Shell Eggs (AMS 56)"
_EGG_EU = "Commission Regulation (EC) No 589/2008, Article 4"
_SR26 = "USDA National Nutrient Database for Standard Reference, Release 26 (2013), Weight file"
_IUPAC = "computed from IUPAC standard atomic weights 2021, from memory"
_GAS = "gas mark table (online encyclopedia article and UK conversion charts)"
# Definitions and single rules; those of carbohydrate stand in label_rules beside the regions they are for.
_SINGLE = {
    "US-CARB-DEF": "21 CFR 101.9(c)(6), from memory",
    "CA-CARB-DEF": "Canada Food and Drug Regulations B.01.401, from memory",
    "JP-CARB-DEF": "Japan Food Labeling Standards (2015), from memory",
    "EU-CARB-DEF": "Regulation (EU) 1169/2011, Annex I points 7 and 12",
    "UK-CARB-DEF": "Regulation (EU) 1169/2011 as retained in UK law, Annex I",
    "AU-CARB-DEF": "Australia New Zealand Food Standards Code, Schedule 11, S11-3(2)",
    "ZA-CARB-DEF": "South Africa R.146 (2010) labelling guideline on carbohydrate by difference",
    "EU-SALT-DEF": "Regulation (EU) 1169/2011, Annex I point 11",
    "AS-PRINTED": "half of the last printed digit, common practice",
    "POLYOL-NOT-NAMED": "none or all of an unnamed sugar alcohol is digested, common practice",
    "CO2-ACID": _IUPAC, "CO2-HEAT": _IUPAC,
    "BP-CO2-MIN": "USDA definitions and standards for food products, baking powder, from memory",
    "PAN-FORMULA": "geometry: base areas, a round one is π d² / 4, common practice",
    "DOUGH-TEMPERATURE": "bakers' rule for water temperature, common practice",
    "TEMP-FORMULA": "SI Brochure, 9th edition: 0 °C is 273.15 K; °F = °C × 9/5 + 32, from memory",
    "FAN-OVEN": "UK conversion charts",
    "BOIL-ANTOINE": "International Standard Atmosphere and Antoine equation for water, from memory",
}  # fmt: skip


def rule(rule_id: str) -> Rule:
    """The rule of that id ('rule:US-CARB-1'); NoKnowledge with a near spelling if there is none."""
    found = _rules().get(rule_id)
    if found is None:
        near = nearest(rule_id, _rules())
        raise NoKnowledge(
            f"no rule {rule_id!r} is known", f"did you mean {near!r}?" if near else "see qa/kitchen/rules.py"
        )
    return found


def is_rule(fact_id: str) -> bool:
    """Whether an id among a figure's facts is a rule's and not a fact's."""
    return fact_id.startswith("rule:")


@cache
def _rules() -> dict[str, Rule]:
    found: dict[str, Rule] = {}
    for name, source in _sources():
        known = "memory" not in source and "common practice" not in source
        found.setdefault(f"rule:{name}", Rule(f"rule:{name}", source, "published" if known else "common practice"))
    return found


def _sources() -> Iterator[tuple[str, str]]:
    yield from _SINGLE.items()
    yield from ((household.rule.removeprefix("rule:"), household.source) for household in HOUSEHOLD.values())
    yield from label_rules.sources()
    for region, factors in energy.FACTORS.items():
        yield from ((f"energy.{region}.{name.replace(' ', '-')}", factor.source) for name, factor in factors.items())
    for name in leavening.ACIDS:
        key = name.replace(" ", "-").upper()
        yield from ((f"NV-{key}", leavening.TITRATED), (f"NVT-{key}", _IUPAC))
    for size in eggs.US_OUNCES:
        yield f"EGG-US-{_key(size)}", _AMS
    yield from ((f"EGG-EU-{letter}", _EGG_EU) for *_, letter in eggs.EU_GRAMS.values())
    yield from ((f"EGG-US-EDIBLE-{_key(size)}", _SR26) for size in eggs.EDIBLE_US)
    for published in yeast.RATIOS.values():
        yield from ((name, yeast.SOURCE_OLD if name.endswith("-OLD") else yeast.SOURCE) for _, name in published)
    yield from ((f"GAS-{plain(mark)}", _GAS) for mark in heat.GAS_MARKS)
    yield from ((core.rule.removeprefix("rule:"), core.source) for core in heat.SAFE_CORES)


def _key(size: str) -> str:
    return size.upper().replace(" ", "-")
