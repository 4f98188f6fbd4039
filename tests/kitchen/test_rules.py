"""Every rule id that a sum puts among its facts has a source and a tier."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

import qa.kitchen
from qa.errors import NoKnowledge
from qa.kitchen import eggs, energy, heat, labels, leavening, pans, yeast
from qa.kitchen.rules import is_rule, rule
from qa.measures.measure import Measure
from qa.measures.parse import Amount
from qa.measures.resolve import HOUSEHOLD, resolve


def emitted():
    """Facts of a wide sample of sums that lean on rules."""
    ten = Measure.exact(10.0, "g")
    yield from (resolve(Amount(1.0, 1.0, 1.0, name), "US")[0].facts for name in HOUSEHOLD)
    for region in ("US", "CA", "EU", "UK", "IE", "AU", "NZ", "ZA", "JP"):
        for figure in ("0", "1", "12"):
            yield labels.digestible(labels.Label(region, ten, figure, "0"))[0].sum.measure.facts
    polyols = labels.Label("US", ten, "20", polyols=(("maltitol", "5"), ("sugar alcohol", "1")))
    yield labels.digestible(polyols)[0].sum.measure.facts
    yield labels.digestible(labels.Label("US", ten, net="1"))[0].sum.measure.facts
    yield labels.salt(ten).measure.facts
    for region, factors in energy.FACTORS.items():
        yield energy.energy(dict.fromkeys(factors, ten), region).measure.facts
    for name in leavening.ACIDS:
        yield leavening.neutralising_value(name).facts
        yield leavening.neutralising_value(name, theory=True).facts
    yield leavening.leaven(ten).as_powder.measure.facts
    yield leavening.gas(ten, by_heat=True).measure.facts
    for mark in heat.GAS_MARKS:
        yield heat.convert(mark, "gas_mark", "degC").measure.facts
    yield heat.convert(180.0, "degC", "degF").measure.facts
    yield heat.fan(180.0).measure.facts
    yield heat.boiling_point(0.0).measure.facts
    yield tuple(core.rule for core in heat.SAFE_CORES)
    yield from (eggs.edible(size).facts for size in eggs.EDIBLE_US)
    yield tuple(eggs.in_shell("US", size).rule for size in eggs.US_OUNCES)
    yield tuple(eggs.in_shell("EU", size).rule for size in eggs.EU_GRAMS)
    for have in yeast.YEASTS:
        yield from (yeast.convert_yeast(ten, have, want).measure.facts for want in yeast.YEASTS)
    pan = pans.Pan("round", (20.0,), "cm")
    yield pans.pan_factor(pan, pan).measure.facts


def test_every_emitted_rule_has_a_source_and_a_tier():
    """No figure leans on an id that nobody can look up."""
    ids = {fact for facts in emitted() for fact in facts}
    assert len(ids) > 100
    for fact in ids:
        assert is_rule(fact)
        assert rule(fact).source
        assert rule(fact).tier in ("published", "common practice")


def test_rules_named_in_the_code_are_known():
    """Each whole id written in a module of the kitchen can be looked up."""
    folder = Path(qa.kitchen.__file__).parent
    written = {
        id_ for file in folder.glob("*.py") for id_ in re.findall(r'"(rule:[A-Z0-9-]+)"', file.read_text("utf-8"))
    }
    assert len(written) > 20
    assert [rule(id_).id for id_ in sorted(written)] == sorted(written)


def test_what_is_from_memory_is_not_called_published():
    """Canadian rounding is remembered, the FDA's was read."""
    assert rule("rule:CA-CARB-1").tier == "common practice"
    assert rule("rule:US-CARB-1").tier == "published"
    with pytest.raises(NoKnowledge, match="US-CARB"):
        rule("rule:US-CARBS-1")
