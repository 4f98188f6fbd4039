"""Food energy from the factors of a region's labels.

>>> energy({"carbohydrate": Measure.exact(10.0, "g"), "fibre": Measure.exact(5.0, "g")}, "EU").measure.value
50.0
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from qa.errors import InvalidMeasure
from qa.kitchen.sums import Sum, line, said
from qa.measures.measure import Measure
from qa.measures.show import plain
from qa.text import nearest

ATWATER = "Atwater general factors; Merrill and Watt, USDA Agriculture Handbook 74 (1973); 21 CFR 101.9(c)(1)(i)(B)"
US_OPTION_C = "21 CFR 101.9(c)(1)(i)(C)"
US_POLYOLS = "21 CFR 101.9(c)(1)(i)(F), from memory"
US_ALLULOSE = "FDA guidance on the declaration of allulose (draft Apr 2019, final Oct 2020)"
ANNEX_XIV = "Regulation (EU) 1169/2011, Annex XIV"
SCHEDULE_11 = "Australia New Zealand Food Standards Code, Schedule 11 (S11-2), from memory"
A1247 = "Food Standards (Application A1247, D-allulose) Variation, 23 Oct 2024"
R146 = "South Africa R.146 (2010) labelling guideline, energy factors"

KJ_PER_KCAL = 4.184  # thermochemical, exact: ISO 80000-5, NIST SP 811 Appendix B, from memory
KJ_PER_KCAL_AU = 4.18  # Australia New Zealand Food Standards Code, Schedule 11, S11-2(4)


@dataclass(frozen=True, slots=True)
class Factor:
    """Energy of one gram: kcal and kJ as the region's labels count it (None where it prints none), and the source."""

    kcal: float | None
    kj: float | None
    source: str


def _same(source: str, **factors: tuple[float | None, float | None]) -> dict[str, Factor]:
    return {name.replace("_", " "): Factor(kcal, kj, source) for name, (kcal, kj) in factors.items()}


def _australian(source: str, **kilojoules: float) -> dict[str, Factor]:
    return {
        name.replace("_", " "): Factor(round(kj / KJ_PER_KCAL_AU, 3), kj, source) for name, kj in kilojoules.items()
    }


# General: the kJ are the rounded label factors of Annex XIV; alcohol is 6.93 kcal/g in Handbook 74, from memory.
_GENERAL = _same(
    ATWATER, protein=(4.0, 17.0), carbohydrate=(4.0, 17.0), fat=(9.0, 37.0), alcohol=(7.0, 29.0)
)  # fmt: skip
_US = (
    _GENERAL
    | _same(US_OPTION_C, digestible_carbohydrate=(4.0, None), soluble_fibre=(2.0, None), insoluble_fibre=(0.0, None))
    | _same(
        US_POLYOLS, isomalt=(2.0, None), lactitol=(2.0, None), xylitol=(2.4, None), maltitol=(2.1, None),
        sorbitol=(2.6, None), hydrogenated_starch_hydrolysates=(3.0, None), mannitol=(1.6, None),
        erythritol=(0.0, None),
    )
    | _same(US_ALLULOSE, allulose=(0.4, None))
)  # fmt: skip
_EU = _same(
    ANNEX_XIV, carbohydrate=(4.0, 17.0), polyols=(2.4, 10.0), protein=(4.0, 17.0), fat=(9.0, 37.0),
    salatrims=(6.0, 25.0), alcohol=(7.0, 29.0), organic_acid=(3.0, 13.0), fibre=(2.0, 8.0), erythritol=(0.0, 0.0),
)  # fmt: skip
_AU = _australian(
    SCHEDULE_11, alcohol=29.0, carbohydrate=17.0, fat=37.0, protein=17.0, fibre=8.0, erythritol=1.0, glycerol=18.0,
    isomalt=11.0, lactitol=11.0, maltitol=13.0, mannitol=9.0, organic_acid=13.0, polydextrose=5.0, sorbitol=14.0,
    tagatose=11.0, xylitol=14.0,
) | _australian(A1247, allulose=2.0)  # fmt: skip
_ZA = _same(
    R146, carbohydrate=(None, 17.0), fibre=(None, 8.0), protein=(None, 17.0), alcohol=(None, 29.0), fat=(None, 37.0),
    polyols=(None, 10.0), organic_acid=(None, 13.0),
)  # fmt: skip
FACTORS: dict[str, dict[str, Factor]] = {
    "general": _GENERAL, "US": _US, "EU": _EU, "UK": _EU, "IE": _EU, "AU": _AU, "NZ": _AU, "ZA": _ZA,
}  # fmt: skip
_POLYOLS = frozenset({"xylitol", "maltitol", "sorbitol", "isomalt", "lactitol", "mannitol"})


def factor_of(component: str, region: str) -> Factor:
    """The region's factor for a component; a sugar alcohol without its own one takes that of polyols.

    >>> factor_of("xylitol", "EU").kcal, factor_of("xylitol", "US").kcal
    (2.4, 2.4)
    """
    factors = FACTORS.get(region)
    if factors is None:
        raise InvalidMeasure(f"no energy factors are known for {region!r}", f"known are {', '.join(FACTORS)}")
    name = "polyols" if component in _POLYOLS and component not in factors else component
    if name not in factors:
        near = nearest(component, factors)
        remedy = f"did you mean {near!r}?" if near else f"known are {', '.join(factors)}"
        raise InvalidMeasure(f"{region} has no energy factor for {component!r}", remedy)
    return factors[name]


def energy(grams: Mapping[str, Measure], region: str, unit: str = "kcal") -> Sum:
    """Energy of so many grams of each component, in kcal or kJ, by the region's label factors.

    Where a region prints factors in one unit only, the other is converted (4.184, in Australia and New Zealand 4.18).
    """
    if unit not in ("kcal", "kJ") or not grams:
        raise InvalidMeasure("energy is counted in kcal or kJ of some component", "name grams and the unit")
    total, lines = Measure.exact(0.0, unit), []
    for component, amount in grams.items():
        per_gram = _factor(component, region, unit)
        mass = amount.to("g")
        if mass.value < 0:
            raise InvalidMeasure(f"{component} cannot be less than nothing", "give grams of zero or more")
        rule = Measure.of(per_gram, f"{unit}/g", fact=f"rule:energy.{region}.{component.replace(' ', '-')}")
        part = mass * rule
        lines.append(f"{component}: {said(mass)} × {plain(per_gram)} {unit} per g = {said(part)}")
        total = total + part
    return Sum(total, (*lines, line("together", total)))


def _factor(component: str, region: str, unit: str) -> float:
    factor = factor_of(component, region)
    per_kcal = KJ_PER_KCAL_AU if region in ("AU", "NZ") else KJ_PER_KCAL
    if unit == "kcal":
        return factor.kcal if factor.kcal is not None else (factor.kj or 0.0) / per_kcal
    return factor.kj if factor.kj is not None else (factor.kcal or 0.0) * per_kcal
