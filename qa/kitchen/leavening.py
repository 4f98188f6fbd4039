"""Soda, baking powder and acids: what neutralises what, how much gas, what is left over.

Acid foods (buttermilk, yogurt, lemon juice …) come as measured neutralising values, never as defaults.

>>> round(ratio_to_soda("cream of tartar").measure.value, 2)
2.24
>>> judge_substitute(Measure.exact(1.15, "g"), Measure.exact(1.5, "g")).share.text
'58 %'
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache

from qa.errors import InvalidMeasure
from qa.kitchen.sums import Sum, line, said
from qa.kitchen.weights import to_volume
from qa.measures.measure import Measure
from qa.measures.show import plain
from qa.measures.units import dimension
from qa.text import nearest

# IUPAC standard atomic weights 2021: conventional values for interval elements, unabridged for Na, Al and P;
# from memory.
ATOMIC_WEIGHTS = {
    "H": 1.008, "C": 12.011, "N": 14.007, "O": 15.999, "Na": 22.98976928, "Al": 26.9815384, "P": 30.973761998,
    "S": 32.06, "K": 39.098, "Ca": 40.078,
}  # fmt: skip
SODA = "NaHCO3"
_GAS_CONSTANT = 8.314462618  # J/(mol K), SI Brochure 9th edition: exact product of defined constants, from memory
_ATMOSPHERE = 101_325.0  # Pa, exact by convention

# Least carbon dioxide a US baking powder must give, per mass of powder: USDA definitions and standards for food
# products (S.R.A., F.D. No. 2), baking powder; from memory.
POWDER_GAS = 0.12
# In how a powder works the acids differ: fast ones act when wetted, slow ones in the oven. Common practice, no source.
POWDER_KINDS = {
    "single acting": "gives its gas as soon as it is wet, so the batter must go straight into the oven",
    "double acting": "gives part of its gas when wet and the rest in the oven, so the batter may wait a little",
    "aluminium free": "has phosphates or cream of tartar for its acid, and mostly acts as soon as it is wet",
}
SIGNS_OF_SPARE_ALKALI = (
    "a soapy or bitter taste", "a darker, yellowish crumb", "green sunflower seed, blue-green walnut, redder cocoa",
)  # fmt: skip

TITRATED = "titrated, product dependent: trade reference page on leavening acids; AACC Approved Method 02-32 defines it"


@dataclass(frozen=True, slots=True)
class Acid:
    """A leavening acid.

    Attributes:
        formula: of the pure substance.
        hydrogens: acid hydrogens that soda can take from it.
        titrated: grams of soda that 100 g neutralise in practice; None where only the chemistry is known.
        misleads: whether dosing by chemistry is known to go wrong, so that the titrated value must be used.
    """

    formula: str
    hydrogens: int
    titrated: float | None = None
    misleads: bool = False


ACIDS: dict[str, Acid] = {
    "cream of tartar": Acid("KC4H5O6", 1, 45.0),
    "glucono-delta-lactone": Acid("C6H10O6", 1, 45.0),
    "fumaric acid": Acid("C4H4O4", 2),
    "citric acid": Acid("C6H8O7", 3),
    "citric acid monohydrate": Acid("C6H8O7.H2O", 3),
    "tartaric acid": Acid("C4H6O6", 2),
    "acetic acid": Acid("C2H4O2", 1),
    "lactic acid": Acid("C3H6O3", 1),
    # Phosphates and sulfates give up some hydrogens only in part or only when hot (a text on leavening acids notes that
    # SAPP titrates to 72 where 1.1 free hydrogens would give 42), so only titrated values may dose them.
    "dicalcium phosphate dihydrate": Acid("CaHPO4.2H2O", 1, 33.0, misleads=True),
    "sodium acid pyrophosphate": Acid("Na2H2P2O7", 2, 72.0, misleads=True),
    "monocalcium phosphate monohydrate": Acid("Ca(H2PO4)2.H2O", 2, 80.0, misleads=True),
    "anhydrous monocalcium phosphate": Acid("Ca(H2PO4)2", 2, 83.0, misleads=True),
    "sodium aluminium phosphate": Acid("NaH14Al3(PO4)8.4H2O", 14, 100.0, misleads=True),
    "sodium aluminium sulfate": Acid("NaAl(SO4)2", 3, 104.0, misleads=True),
}


@cache
def molar_mass(formula: str) -> float:
    """Grams in one mole of a formula such as 'Ca(H2PO4)2.H2O'; InvalidMeasure for an element we have no weight of.

    >>> round(molar_mass("NaHCO3"), 3)
    84.006
    """
    total = 0.0
    for part in formula.split("."):
        count = re.match(r"\d*", part)
        times = int(count[0]) if count and count[0] else 1
        total += times * _group_mass(part[count.end() if count else 0 :])
    return total


def _group_mass(formula: str) -> float:
    total = 0.0
    for inner, inner_count, element, element_count in re.findall(r"\(([^()]*)\)(\d*)|([A-Z][a-z]?)(\d*)", formula):
        if inner:
            total += _group_mass(inner) * int(inner_count or 1)
        elif element in ATOMIC_WEIGHTS:
            total += ATOMIC_WEIGHTS[element] * int(element_count or 1)
        else:
            raise InvalidMeasure(f"{element!r} in {formula!r} is no element of leavening", "check the formula")
    return total


def acid_named(name: str) -> Acid:
    """The acid of that name; InvalidMeasure with a near spelling if there is none."""
    if name in ACIDS:
        return ACIDS[name]
    near = nearest(name, ACIDS)
    raise InvalidMeasure(f"{name!r} is no leavening acid of this table", f"did you mean {near!r}?" if near else "")


def neutralising_value(name: str, *, theory: bool = False) -> Measure:
    """Grams of soda that one gram of an acid neutralises, as a share.

    Chemistry where it is exact, the titrated value (± half its last digit) where chemistry is known to mislead; with
    `theory` the value from all acid hydrogens in any case.
    """
    acid = acid_named(name)
    key = name.replace(" ", "-").upper()
    if acid.misleads and not theory and acid.titrated is not None:
        spread = 0.5 / 3**0.5
        return Measure.of(acid.titrated, "percent", spread=spread, fact=f"rule:NV-{key}").to("dimensionless")
    share = acid.hydrogens * molar_mass(SODA) / molar_mass(acid.formula)
    return Measure.of(share, "dimensionless", fact=f"rule:NVT-{key}")


def ratio_to_soda(name: str) -> Sum:
    """Grams of an acid that neutralise one gram of soda."""
    value = neutralising_value(name)
    ratio = Measure.exact(1.0, "dimensionless") / value
    acid = acid_named(name)
    if acid.misleads:
        return Sum(
            ratio, (line(f"100 g {name} neutralise {plain(100 * value.value)} g soda (titrated): 1 ÷ that", ratio),)
        )
    moles = f"{acid.hydrogens} × {plain(molar_mass(SODA))}"
    return Sum(ratio, (f"{plain(molar_mass(acid.formula))} ÷ ({moles}) = {plain(ratio.value)} g {name} per g soda",))


def soda_neutralised(acid: Measure, value: Measure) -> Sum:
    """Grams of soda that a mass of acid, or of an acid food with a known neutralising value, uses up."""
    _refuse_mass(acid)
    _refuse_share(value)
    soda = acid.to("g") * value.to("dimensionless")
    return Sum(soda, (line(f"{said(acid)} × {plain(value.to('dimensionless').value)} g soda per g", soda),))


def acid_needed(soda: Measure, value: Measure) -> Sum:
    """Grams of an acid, or of an acid food, that use up a mass of soda."""
    _refuse_mass(soda)
    _refuse_share(value)
    acid = soda.to("g") / value.to("dimensionless")
    return Sum(acid, (line(f"{said(soda)} ÷ {plain(value.to('dimensionless').value)} g soda per g", acid),))


@dataclass(frozen=True, slots=True)
class Balance:
    """Soda against the acids of a recipe.

    Attributes:
        neutralised: grams of soda the acids can use up (at most all of it).
        spare: grams of soda left over.
        share: neutralised part of the soda.
        signs: what spare alkali does, in words; empty if there is next to none.
        spare_acid: the acids could use up more soda than there is.
    """

    neutralised: Sum
    spare: Sum
    share: Sum
    signs: tuple[str, ...]
    spare_acid: bool


# Under this part of the soda left over nobody is likely to taste it; common practice, no source.
_UNNOTICED = 0.1


def balance(soda: Measure, acids: Sequence[tuple[str, Measure, Measure]]) -> Balance:
    """What is left of a mass of soda when acids (name, mass, neutralising value) have done their work."""
    _refuse_mass(soda)
    if soda.value <= 0:
        raise InvalidMeasure("there is no soda to neutralise", "give an amount of soda above zero")
    parts = [(name, soda_neutralised(mass, value)) for name, mass, value in acids]
    used = Measure.exact(0.0, "g")
    for _, part in parts:
        used = used + part.measure
    lines = tuple(f"{name}: {part.working[0]}" for name, part in parts)
    enough = used.value >= soda.to("g").value
    neutralised = soda.to("g") if enough else used
    spare = soda.to("g") - neutralised
    share = (neutralised / soda.to("g")).to("percent")
    left = line(f"{said(soda)} − {said(neutralised)}", spare)
    percent = f"{plain(neutralised.value)} ÷ {plain(soda.to('g').value)} = {plain(share.value)} %"
    signs = SIGNS_OF_SPARE_ALKALI if share.value < 100 * (1 - _UNNOTICED) else ()
    return Balance(Sum(neutralised, lines), Sum(spare, (*lines, left)), Sum(share, (*lines, percent)), signs, enough)


@dataclass(frozen=True, slots=True)
class Leavened:
    """What a recipe's leavening comes to.

    Attributes:
        balance: soda against acids.
        gas: carbon dioxide freed by the acids, in g; what heat frees from spare soda is not counted.
        tartar: cream of tartar that would use up the spare soda.
        as_powder: baking powder that lifts as much.
    """

    balance: Balance
    gas: Sum
    tartar: Sum
    as_powder: Sum


def leaven(soda: Measure, acids: Sequence[tuple[str, Measure, Measure]] = ()) -> Leavened:
    """A mass of soda with acids (name, mass, neutralising value): what is spare, the gas, and what would balance it."""
    found = balance(soda, acids)
    freed = gas(found.neutralised.measure)
    tartar = acid_needed(found.spare.measure, neutralising_value("cream of tartar"))
    return Leavened(found, freed, tartar, powder_for_soda(found.neutralised.measure))


@dataclass(frozen=True, slots=True)
class Judged:
    """A kitchen rule for a home-made powder, judged against the sum.

    Attributes:
        share: part of the soda that the cream of tartar neutralises, in percent.
        tartar: grams of cream of tartar that would neutralise all of it.
        right: within a tenth of neutral.
    """

    share: Sum
    tartar: Sum
    right: bool


def judge_substitute(soda: Measure, tartar: Measure) -> Judged:
    """Whether so much cream of tartar uses up so much soda; both by mass."""
    value = neutralising_value("cream of tartar")
    found = balance(soda, [("cream of tartar", tartar, value)])
    needed = acid_needed(soda, value)
    surplus = tartar.to("g").value > needed.measure.value * (1 + _UNNOTICED)
    return Judged(found.share, needed, right=not found.signs and not surplus)


def gas(soda: Measure, *, celsius: float | None = None, by_heat: bool = False) -> Sum:
    """Carbon dioxide from a mass of soda: in g, or in mL at a temperature and normal pressure.

    Acid frees all of it; heat alone frees half and leaves washing soda, which is more alkaline.
    """
    _refuse_mass(soda)
    carbon_dioxide, one_soda = molar_mass("CO2"), molar_mass(SODA)
    moles = 2.0 if by_heat else 1.0
    rule = "rule:CO2-HEAT" if by_heat else "rule:CO2-ACID"
    if celsius is None:
        mass = soda.to("g") * Measure.of(carbon_dioxide / (moles * one_soda), "dimensionless", fact=rule)
        return Sum(mass, (line(f"{said(soda)} × {plain(carbon_dioxide)} ÷ {plain(moles * one_soda)}", mass),))
    litres = _GAS_CONSTANT * (celsius + 273.15) / _ATMOSPHERE * 1000
    volume = soda.to("g") * Measure.of(litres * 1000 / (moles * one_soda), "mL/g", fact=rule)
    volume = volume.to("mL")
    at = f"{plain(litres)} L of gas per mole at {plain(celsius)} °C"
    return Sum(volume, (line(f"{said(soda)} ÷ {plain(moles * one_soda)} g per mole × {at}", volume),))


@dataclass(frozen=True, slots=True)
class HomePowder:
    """What stands in for baking powder: soda and cream of tartar by weight, and by spoon where densities are known."""

    soda: Sum
    tartar: Sum
    soda_spoons: Sum | None = None
    tartar_spoons: Sum | None = None


def without_powder(
    powder: Measure, soda_density: Measure | None = None, tartar_density: Measure | None = None, unit: str = "us_tsp"
) -> HomePowder:
    """Soda and cream of tartar that lift like a mass of US baking powder, neutral to the last grain.

    A powder must give at least 12 % of its mass as gas; a stronger one needs in proportion more.
    """
    _refuse_mass(powder)
    per_gram = Measure.of(molar_mass("CO2") / molar_mass(SODA), "dimensionless", fact="rule:CO2-ACID")
    strength = Measure.of(POWDER_GAS, "dimensionless", fact="rule:BP-CO2-MIN")
    soda = powder.to("g") * strength / per_gram
    gas_line = f"{said(powder)} × 12 % gas ÷ {plain(per_gram.value)} g gas per g soda"
    soda_sum = Sum(soda, (line(gas_line, soda),))
    tartar = acid_needed(soda, neutralising_value("cream of tartar"))
    return HomePowder(
        soda_sum,
        tartar,
        to_volume(soda, soda_density, unit) if soda_density is not None else None,
        to_volume(tartar.measure, tartar_density, unit) if tartar_density is not None else None,
    )


def powder_for_soda(soda: Measure) -> Sum:
    """Baking powder that lifts like a mass of soda; it does not neutralise the acids that the soda was there for."""
    _refuse_mass(soda)
    per_gram = Measure.of(molar_mass("CO2") / molar_mass(SODA), "dimensionless", fact="rule:CO2-ACID")
    strength = Measure.of(POWDER_GAS, "dimensionless", fact="rule:BP-CO2-MIN")
    powder = soda.to("g") * per_gram / strength
    return Sum(powder, (line(f"{said(soda)} × {plain(per_gram.value)} g gas per g ÷ 12 %", powder),))


def _refuse_mass(measure: Measure) -> None:
    if dimension(measure.unit) != "mass":
        raise InvalidMeasure(f"{said(measure)} is a {dimension(measure.unit)}; leavening is weighed", "give grams")
    if measure.value < 0:
        raise InvalidMeasure(f"{said(measure)} is less than nothing", "give grams of zero or more")


def _refuse_share(value: Measure) -> None:
    if dimension(value.unit) != "share" or value.value <= 0:
        raise InvalidMeasure(
            f"{said(value)} is no neutralising value", "give grams of soda per gram of acid, above zero"
        )
