"""Every figure copied into knowledge/ from a published table equals the table, row by row.

The tables stand in tests/cases with their sources; USDA SR26 weights and composition are the authority's own data
files, the others were read in copies or re-publications (column `copy`). What is only remembered is compared as well.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Callable

import pytest

from qa.knowledge.facts import Fact
from qa.knowledge.library import Library
from qa.knowledge.load import load_knowledge
from qa.settings import shipped

Rows = Callable[[str], list[dict[str, str]]]

COLUMNS = {
    "water": "water_g",
    "protein": "protein_g",
    "fat": "fat_g",
    "fibre": "fibre_g",
    "sugars": "sugars_g",
    "ash": "ash_g",
    "carbohydrate with fibre": "carbohydrate_by_difference_g",
    "carbohydrate without fibre": "carbohydrate_available_g",
    "energy": "energy_kcal",
}
US_UNITS = {"cup": "us_cup", "tbsp": "us_tbsp", "tablespoon": "us_tbsp", "tsp": "us_tsp", "fl": "us_fl_oz"}
OTHER_UNITS = {
    "US cup": "us_cup",
    "US tablespoon": "us_tbsp",
    "US teaspoon": "us_tsp",
    "15 mL": "metric_tbsp",
    "5 mL": "metric_tsp",
    "200 mL": "jp_cup",
    "1 mL (density as published)": "mL",
}
PER_GRAM = {"g/100 g": 0.01, "g/100 g solution": 0.01}

# Which row of sweetness.csv and leavening.csv each item was copied from.
SWEETENERS = {
    "fructose.powder": "fructose",
    "dextrose.powder": "glucose",
    "lactose.powder": "lactose",
    "tagatose.crystal": "tagatose",
    "trehalose.powder": "trehalose",
    "isomaltulose.powder": "isomaltulose",
    "erythritol.granulated": "erythritol",
    "xylitol.granulated": "xylitol",
    "maltitol.powder": "maltitol",
    "sorbitol.powder": "sorbitol",
    "mannitol.powder": "mannitol",
    "isomalt.crystal": "isomalt",
    "lactitol.powder": "lactitol",
    "honey.liquid": "honey",
    "saccharin.powder": "saccharin",
    "aspartame.powder": "aspartame",
    "acesulfame-k.powder": "acesulfame potassium",
    "stevia.extract": "steviol glycosides",
    "monk-fruit.extract": "luo han guo (monk fruit) extract",
    "allulose.granulated": "allulose",
    "corn-syrup.high-fructose": "high-fructose corn syrup",
    "maltodextrin.powder": "maltodextrin",
    "sugar.invert": "invert sugar",
    "polydextrose.powder": "polydextrose",
    "molasses.liquid": "molasses",
    "malt-syrup.liquid": "malt extract",
    "sucralose.extract": "sucralose",
    "sugar.granulated": "sucrose",
}
NEUTRALISING = {
    ("cream-of-tartar.powder", "leavening-reference"): "NV-CREAM-OF-TARTAR",
    ("cream-of-tartar.powder", "stoichiometry"): "NVT-COT",
    ("citric-acid.crystal", "stoichiometry"): "NVT-CIT",
    ("tartaric-acid.crystal", "stoichiometry"): "NVT-TART",
    ("monocalcium-phosphate.powder", "leavening-reference"): "NV-MONOCALCIUM-PHOSPHATE-MONOHYDRATE",
    ("monocalcium-phosphate.anhydrous", "leavening-reference"): "NV-ANHYDROUS-MONOCALCIUM-PHOSPHATE",
    ("sapp.powder", "leavening-reference"): "NV-SODIUM-ACID-PYROPHOSPHATE",
    ("glucono-delta-lactone.powder", "leavening-reference"): "NV-GLUCONO-DELTA-LACTONE",
    ("glucono-delta-lactone.powder", "stoichiometry"): "NVT-GDL",
}


@pytest.fixture(scope="module")
def library() -> Library:
    """All shipped knowledge."""
    return load_knowledge(shipped("knowledge"))[0]


def facts_of(library: Library, properties: set[str], sources: set[str] | None = None) -> list[Fact]:
    """Facts with a figure on some properties, from some sources or from any."""
    return [
        f
        for f in library.knowledge.facts
        if f.measure and f.property in properties and (sources is None or f.source in sources)
    ]


def value_in(fact: Fact, unit: str) -> float:
    """A fact's figure in a unit."""
    assert fact.measure is not None
    return fact.measure.to(unit).value


def scale_of(fact: Fact) -> float:
    """What one of a fact's own unit is as a plain share; 1 where it is no percentage."""
    return 0.01 if fact.measure and fact.measure.unit in {"percent", "pct"} else 1.0


def test_every_usda_household_weight_equals_its_row(library: Library, rows: Rows) -> None:
    """USDA SR26, file WEIGHT: grams per cup or spoon, and grams per piece."""
    table = {(r["ndb_no"], r["amount"], r["measure"]): r for r in rows("household_weights.csv")}
    checked, wrong = 0, []
    for fact in facts_of(library, {"bulk density", "piece weight"}, {"usda-sr26"}):
        place = re.fullmatch(r"NDB (\d+), (\S+) (.+)", fact.where)
        assert place, f"{fact.id}: {fact.where!r} names no row"
        row = table[place.group(1), place.group(2), place.group(3)]
        if fact.property == "piece weight":
            expected, found = float(row["grams"]), value_in(fact, "g")
        else:
            unit = US_UNITS[re.split(r"[ ,]", row["measure"])[0]]
            expected, found = float(row["grams"]) / float(row["amount"]), value_in(fact, f"g/{unit}")
        checked += 1
        if found != pytest.approx(expected, rel=1e-9):
            wrong.append((fact.id, expected, found))
    assert wrong == []
    assert checked >= 300


def test_every_usda_composition_equals_its_row(library: Library, rows: Rows) -> None:
    """USDA SR26, file ABBREV: grams in 100 g, and kilocalories in 100 g."""
    table = {r["ndb_no"]: r for r in rows("usda_composition.csv")}
    checked, wrong = 0, []
    for fact in facts_of(library, set(COLUMNS), {"usda-sr26"}):
        place = re.fullmatch(r"NDB (\d+), per 100 g", fact.where)
        assert place, f"{fact.id}: {fact.where!r} names no row"
        row, unit = table[place.group(1)], "kcal/g" if fact.property == "energy" else "percent"
        found = value_in(fact, unit) * (100 if unit == "kcal/g" else 1)
        checked += 1
        if found != pytest.approx(float(row[COLUMNS[fact.property]]), rel=1e-9):
            wrong.append((fact.id, row[COLUMNS[fact.property]], found))
    assert wrong == []
    assert checked >= 1000


def test_every_second_household_weight_equals_its_row(library: Library, rows: Rows) -> None:
    """FAO/INFOODS, Japanese tables, later USDA releases, a miller's chart, papers, and what is only remembered."""
    table = defaultdict(list)
    for r in rows("household_weights_2.csv"):
        if r["measure"] in OTHER_UNITS:
            table[f"{r['place'] or r['source']}, {r['amount']} {r['measure']}"].append(r)
    checked, wrong = 0, []
    for fact in facts_of(library, {"bulk density"}):
        if fact.source in {"usda-sr26", "common-practice"} or fact.item == "water.liquid":
            continue
        assert fact.where in table, f"{fact.id}: {fact.where!r} names no row"
        unit = OTHER_UNITS[table[fact.where][0]["measure"]]
        found = value_in(fact, f"g/{unit}")
        checked += 1
        if not any(found == pytest.approx(float(r["grams"]) / float(r["amount"]), rel=1e-9) for r in table[fact.where]):
            wrong.append((fact.id, fact.where, found))
    assert wrong == []
    assert checked >= 200


def test_every_second_composition_equals_its_row(library: Library, rows: Rows) -> None:
    """The Australian, British, Canadian, French, German, Italian and Swiss tables, and USDA Foundation Foods."""
    table = {(r["source_id"], r["where"]): r for r in rows("composition_2.csv")}
    sources = {source for source, _ in table}
    checked, wrong = 0, []
    for fact in facts_of(library, set(COLUMNS), sources):
        row = table[fact.source, fact.where]
        unit = "kcal/g" if fact.property == "energy" else "percent"
        found = value_in(fact, unit) * (100 if unit == "kcal/g" else 1)
        checked += 1
        if found != pytest.approx(float(row[COLUMNS[fact.property]]), rel=1e-9):
            wrong.append((fact.id, row[COLUMNS[fact.property]], found))
    assert wrong == []
    assert checked >= 400


def test_every_other_property_equals_its_row(library: Library, rows: Rows) -> None:
    """Temperatures, pH, solubility, water uptake, legal fat ranges: the middle of the printed range and its ends."""
    by_place = {(f.source, f.where): f for f in library.knowledge.facts if f.measure}
    wrong = []
    for row in rows("properties.csv"):
        fact = by_place[row["source_id"], row["where"]]
        assert fact.measure is not None
        assert fact.property == row["stands_for"]
        unit = "degC" if fact.property.endswith("temperature") else ""
        low, high = (PER_GRAM.get(row["unit"], 1.0) * float(row[end]) for end in ("value_low", "value_high"))
        if value_in(fact, unit) != pytest.approx((low + high) / 2, rel=1e-9):
            wrong.append((fact.id, (low + high) / 2, value_in(fact, unit)))
        # A range has its half width over the root of three as spread (GUM, JCGM 100:2008, 4.3.7).
        if high > low and fact.measure.spread != pytest.approx((high - low) / 2 / 3**0.5 / scale_of(fact), rel=1e-9):
            wrong.append((fact.id, (low, high), fact.measure.spread))
    assert wrong == []


def test_every_sweetness_lies_in_its_row(library: Library, rows: Rows) -> None:
    """Review tables of sweeteners: the figure is one that a row of the same sweetener prints."""
    table = defaultdict(list)
    for row in rows("sweetness.csv"):
        table[row["sweetener"]].append([float(row[k]) for k in ("low", "high", "typical") if row[k]])
    facts = facts_of(library, {"sweetness"})
    for fact in facts:
        names = [SWEETENERS[fact.item], *(["dextrose"] if fact.item == "dextrose.powder" else [])]
        printed = [row for name in names for row in table[name]]
        middles = {(row[0] + row[1]) / 2 for row in printed if len(row) > 1} | {v for row in printed for v in row}
        assert any(value_in(fact, "") == pytest.approx(v, rel=1e-9) for v in middles), fact.id
    assert len(facts) >= 25


def test_every_neutralising_value_equals_its_row(library: Library, rows: Rows) -> None:
    """Titrated values of a reference page and those worked out from atomic weights: g of soda in 100 g of acid."""
    table = {row["id"]: float(row["value"]) for row in rows("leavening.csv") if row["unit"].startswith("g soda")}
    for fact in facts_of(library, {"neutralising value"}, {"leavening-reference", "stoichiometry"}):
        assert value_in(fact, "percent") == pytest.approx(table[NEUTRALISING[fact.item, fact.source]], rel=1e-9), (
            fact.id
        )


@pytest.mark.parametrize(
    ("item", "grams"), [("psyllium.husk", 6), ("psyllium.powder", 10), ("psyllium.home-ground", 9)]
)
def test_a_level_us_tablespoon_of_psyllium(library: Library, item: str, grams: float) -> None:
    """Common practice, no source: whole husk about 6 g, powder about 10 g, husk ground at home about 9 g."""
    best = library.density(item, "us_tbsp")[0]
    assert (value_in(best, "g/us_tbsp"), best.source) == (pytest.approx(grams), "common-practice")


def test_there_is_enough_of_everything(library: Library) -> None:
    """The width the starter knowledge promises, and at least 70 % of its facts from publications."""
    known = library.knowledge
    assert len(known.ingredients) >= 150
    assert sum(len(ingredient.forms) for ingredient in known.ingredients) >= 230
    assert len(known.facts) >= 900
    assert len(known.swaps) >= 130
    assert sum(fact.tier == "published" for fact in known.facts) >= 0.7 * len(known.facts)
