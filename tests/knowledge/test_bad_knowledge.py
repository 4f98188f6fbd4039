"""A table of bad files: each spoils one thing in the made-up knowledge and must give one problem at the right line."""

from __future__ import annotations

from pathlib import Path
from typing import NamedTuple

import pytest

from qa.errors import Place
from qa.knowledge.load import load_knowledge

FLOUR, STAR = "ingredients/moonflour.yaml", "ingredients/starflour.yaml"
ANSWER, TRIAL, EPISODE = "answers/weigh-moonflour.md", "trials/moon-spoons.yaml", "episodes/moon-bread.yaml"


class Bad(NamedTuple):
    """One spoiling: in a file, `old` becomes `new`; the problem stands where `at` does (or at the change)."""

    name: str
    file: str
    old: str
    new: str
    says: str
    do: str
    at: str = ""
    others: int = 0
    """How many more problems must follow from it (an item that is gone is missed elsewhere)."""


BAD = (
    # YAML itself
    Bad("an open bracket", FLOUR, "cautions: [M1]", "cautions: [M1", "not YAML", "mend", at="forms:", others=3),
    Bad("a tab", FLOUR, "    usual: true", "\tusual: true", "not YAML", "mend", others=3),
    Bad("a key twice", STAR, "family: starch", "family: starch\nfamily: flour", "given twice", "keep one",
        at="family: flour",
        others=3),
    Bad("an anchor", STAR, "name: starflour", "name: &a starflour", "anchors", "write the text out", others=3),
    Bad("an alias", STAR, "name: starflour", "name: *a", "aliases", "write the text out", others=3),
    Bad("a tag", STAR, "name: starflour", "name: !!python/object:os.system starflour", "tag", "leave it out", others=3),
    Bad("two documents", STAR, "facts:", "---\nfacts:", "2 documents", "exactly one", at="facts:", others=3),
    Bad("a list for a mapping", FLOUR, "{name: Mondmehl, language: de}", "[Mondmehl, de]", "not as a list", "README"),
    # keys and words
    Bad("a misspelt key", FLOUR, "    where:", "    whear:", "'whear' is no key of a fact", "did you mean 'where'?"),
    Bad("a misspelt key of an ingredient", FLOUR, "allergens:", "allergans:", "no key of an ingredient", "'allergens'"),
    Bad("a misspelt property", FLOUR, "property: energy", "property: enregy", "'enregy'", "did you mean 'energy'?"),
    Bad("an unknown family", STAR, "family: starch", "family: starhc", "'starhc'", "did you mean 'starch'?", others=3),
    Bad("an unknown allergen", FLOUR, "[wheat]", "[wheet]", "'wheet'", "did you mean 'wheat'?"),
    Bad("a region in words", FLOUR, "regions: [UK, IE]", "regions: [England]", "'England' is no region",
        "two capitals"),
    Bad("a language in words", FLOUR, "language: de", "language: German", "no language code", "ISO 639-1"),
    Bad("an id with capitals", STAR, "  - id: white", "  - id: White", "no id", "lower-case letters", others=3),
    Bad("an id unlike the file", STAR, "id: starflour", "id: star", "not the file's name", "rename", others=3),
    Bad("no name", STAR, "name: starflour\n", "", "no 'name'", "add a line", at="id: starflour", others=3),
    Bad("a form nobody has", FLOUR, "  - form: coarse", "  - form: corse", "no form 'corse'", "did you mean 'coarse'?"),
    Bad("a form twice", FLOUR, "  - id: coarse", "  - id: fine\n    name: x\n  - id: coarse", "given twice", "keep one",
        at="  - id: fine\n    name: x"),
    Bad("usual twice", FLOUR, "    name: coarse moonflour", "    name: coarse moonflour\n    usual: true",
        "second usual",
        "one form only", at="  - id: coarse"),
    Bad("a maybe for true", FLOUR, "usual: true", "usual: maybe", "'maybe'", "true or false"),
    Bad("a date of no calendar", FLOUR, "checked: 2026-02-03", "checked: 2026-02-30", "no date", "year-month-day"),
    Bad("a date in another order", FLOUR, "checked: 2026-02-03", "checked: 3.2.2026", "no date", "year-month-day"),
    Bad("a text for a list", FLOUR, "cautions: [M1]", "cautions: M1", "no list", "put '- '"),
    # values
    Bad("no number", FLOUR, "value: 7 g/us_tbsp", "value: seven g/us_tbsp", "no value", "write it like"),
    Bad("no unit", FLOUR, "value: 7 g/us_tbsp", "value: 7", "needs a density", "7 g/us_tbsp"),
    Bad("a mass for a density", FLOUR, "value: 7 g/us_tbsp", "value: 7 g", "not a mass (g)", "7 g/us_tbsp"),
    Bad("an unknown spoon", FLOUR, "value: 7 g/us_tbsp", "value: 7 g/us_tbs", "'g/us_tbs' is no unit", "did you mean"),
    Bad("a bare spoon", FLOUR, "value: 7 g/us_tbsp", "value: 7 g/tbsp", "'g/tbsp' is no unit", "did you mean"),
    Bad("a range backwards", FLOUR, "value: 12.5 %", "value: 13 to 12 %", "runs backwards", "12 to 13"),
    Bad("a negative spread", FLOUR, "110 ± 4", "110 ± -4", "negative", "zero or more"),
    Bad("no spread", FLOUR, "110 ± 4", "110 ± 0", "has no spread", "one standard spread"),
    Bad("spread and resolution", FLOUR, "value: 110 ± 4 g/us_cup", "value: 110 ± 4 g/us_cup\n    resolution: 5",
        "a spread and a resolution", "one of the two", at="    value: 110"),
    Bad("a resolution in words", FLOUR, "value: 7 g/us_tbsp", "value: 7 g/us_tbsp\n    resolution: fine",
        "the resolution 'fine'", "0.5", at="    value: 7 g/us_tbsp"),
    Bad("lead, not flour", FLOUR, "value: 7 g/us_tbsp", "value: 70 g/us_tbsp", "4.73 g/mL is not believable", "0.05",
        at="  - form: fine\n    property: bulk density\n    value: 70", others=0),
    Bad("air, not flour", FLOUR, "value: 7 g/us_tbsp", "value: 0.7 g/us_tbsp", "not believable", "0.05",
        at="  - form: fine\n    property: bulk density\n    value: 0.7", others=0),
    Bad("more than the whole", FLOUR, "value: 12.5 %", "value: 92.5 %", "sum to 102.6 g in 100 g", "'note'",
        at="  - property: protein"),
    Bad("a temperature as energy", FLOUR, "364 kcal/100 g", "75 degC", "needs a energy per mass", "364 kcal/100 g"),
    # sources, cautions, ids
    Bad("an unlisted source", FLOUR, '    source: moon-tables\n    where: "p. 14"',
        '    source: moon-tabels\n    where: "p. 14"',
        "source 'moon-tabels' is not listed", "did you mean 'moon-tables'?"),
    Bad("a fact twice", FLOUR, "    variant: cup\n", "", "is given twice", "variant",
        at="  - form: fine\n    property: bulk density\n    value: 110"),
    Bad("kin that disagree", FLOUR, "110 ± 4", "150 ± 4", "spreads from", "'note'",
        at="  - form: fine\n    property: bulk density\n    variant: cup"),
    Bad("a caution nobody defines", FLOUR, "[M1]", "[M2]", "nobody defines the caution 'M2'", "known: M1",
        at="id: moonflour"),
    Bad("a caution without its source", "cautions.yaml", "source: moon-law", "source: moon-lore", "not listed",
        "'moon-law'",
        at="- id: M1"),
    Bad("a number in a caution", "cautions.yaml", "for daylight only", "for 2 days", "says '2'", "without one",
        at="- id: M1"),
    Bad("a source of an unknown kind", "sources.yaml", "kind: memory", "kind: rumour", "'rumour'",
        "known: publication"),
    Bad("a year of no calendar", "sources.yaml", "year: 2024", "year: 20245", "cannot be right", "four digits"),
    Bad("a source twice", "sources.yaml", "- id: memory", "- id: moon-law", "given twice", "keep one",
        at="- id: moon-law\n  kind: memory"),
    Bad("a name of two items", STAR, "forms:", "forms:\n  - id: grey\n    name: coarse moonflour",
        "'coarse moonflour' names",
        "give each its regions", at="  - id: grey"),
    # swaps and confusions
    Bad("a swap for nothing", FLOUR, "use: starflour.white", "use: starflour.wite", "no item 'starflour.wite'",
        "did you mean 'starflour.white'?", at="  - replace: fine"),
    Bad("a ratio without spread", FLOUR, "ratio: 1 ± 0.1", "ratio: 1 ± 0", "no ratio with a spread", "1 ± 0.1"),
    Bad("a ratio of nothing", FLOUR, "ratio: 1 ± 0.1", "ratio: 0 ± 0.1", "no ratio with a spread", "1 ± 0.1"),
    Bad("a ratio with a unit", FLOUR, "ratio: 1 ± 0.1", "ratio: 1 ± 0.1 g", "needs a share", "0.45"),
    Bad("a swap by feeling", FLOUR, "    by: weight\n    holds", "    by: feeling\n    holds", "'feeling'",
        "known: weight, volume",
        at="    by: feeling"),
    Bad("a number word in a swap", FLOUR, "a little paler", "twice as pale", "says 'twice'", "without one",
        at="  - replace: fine"),
    Bad("confused with nothing", FLOUR, "with: starflour.white", "with: starfluor.white", "no item",
        "did you mean 'starflour'?"),
    # answers
    Bad("no front matter", ANSWER, "---\nid:", "id:", "no front matter", "'---'", at="id:"),
    Bad("front matter that is no YAML", ANSWER, "asks: [weight]", "asks: [weight", "not YAML", "mend", at="about:"),
    Bad("no reply", ANSWER, "{{ asked_amount }} of {{ first }} is about {{ mass }}.", "", "without words",
        "write it under",
        at="---\n\n---"),
    Bad("an unknown ask", ANSWER, "asks: [weight]", "asks: [wieght]", "'wieght'", "did you mean 'weight'?", others=1),
    Bad("an unknown basis", ANSWER, "basis: published", "basis: rumour", "'rumour'", "known: measured"),
    Bad("too few phrasings", ANSWER, "  - moonflour spoon weight??\n", "", "4 phrasings", "5 or more", at="id: weigh"),
    Bad("a phrasing twice", ANSWER, "  - moonflour spoon weight??", "  - Grams per spoon of moonflour pls",
        "same phrasing",
        "vary", at="id: weigh"),
    Bad("a placeholder nobody fills", ANSWER, "spoon weight??", "{spoon} weight??", "{spoon} cannot be filled",
        "{ingredient}",
        at="id: weigh"),
    Bad("a verb nobody knows", ANSWER, "mass: weigh asked", "mass: wiegh asked", "no recipe", "Recipes"),
    Bad("a recipe for a property nobody has", ANSWER, "mass: weigh asked of first", "mass: property wetness of first",
        "no property 'wetness'", "Recipes"),
    Bad("a figure named like a word", ANSWER, "  mass: weigh", "  first: weigh", "cannot name a figure",
        "small letters"),
    Bad("a fact nobody gives", ANSWER, "mass: weigh asked of first", "mass: property gel time of first",
        "needs the gel time of moonflour.fine", "add the fact", at="id: weigh"),
    Bad("a swap nobody gives", ANSWER, "mass: weigh asked of first", "mass: ratio starflour.white to moonflour.coarse",
        "needs a swap of starflour.white for moonflour.coarse", "add the fact", at="id: weigh"),
    Bad("about nothing known", ANSWER, "about: [moonflour.fine]", "about: [moonflour.fien]", "no item",
        "'moonflour.fine'",
        at="id: weigh"),
    Bad("about an empty family", ANSWER, "about: [moonflour.fine]", "about: [family:gum]", "no family", "known",
        at="id: weigh"),
    Bad("a figure nobody defines", ANSWER, "is about {{ mass }}", "is about {{ mas }}", "shows 'mas'",
        "did you mean 'mass'?", at="id: weigh"),
    Bad("an open brace", ANSWER, "is about {{ mass }}", "is about {{ mass }", "braces without partner",
        "{{ name }}", at="id: weigh"),
    Bad("a source with a number for a name", "sources.yaml", "the moon tables", "moon table 7", "a number in it",
        "without numbers", at="- id: moon-tables"),
    Bad("a numeral in a reply", ANSWER, "Count on", "Count on 7 g, or", "the reply says '7'", "figure", at="id: weigh"),
    Bad("a fraction in a reply", ANSWER, "Count on", "Count on ½ of", "the reply says '½'", "figure", at="id: weigh"),
    Bad("a number word in a reply", ANSWER, "Count on", "Count on two or", "the reply says 'two'", "figure",
        at="id: weigh"),
    Bad("an undefined caution of an answer", ANSWER, "cautions: [M1]", "cautions: [M9]", "'M9'", "known: M1",
        at="id: weigh"),
    # trials, episodes, ways of filling
    Bad("a reading without resolution", TRIAL, ", resolution: 0.1", "", "no resolution", "step of the scale", others=1),
    Bad("a reading of another level", TRIAL, "{level: coarse, quantity", "{level: corse, quantity", "'corse'",
        "'coarse'", others=1),
    Bad("a reading that is no number", TRIAL, "8.1,", "8.l,", "'8.l' is no number", "digits"),
    Bad("a fact without readings", TRIAL, "level: coarse, quantity: spoonful, per",
        "level: fine, quantity: spoonful, per",
        "no reading of 'spoonful' at level 'fine'", "add it"),
    Bad("a derived fact in the wrong unit", TRIAL, ", per: us_tbsp", "", "needs a density", "unit and per"),
    Bad("a trial of no episode", TRIAL, "episode: moon-bread", "episode: moon-bred", "no episode 'moon-bred'",
        "'moon-bread'",
        at="id: moon-spoons"),
    Bad("a trial without a dose", TRIAL, "dose: one level spoon\n", "", "no 'dose'", "add a line",
        at="id: moon-spoons", others=1),
    Bad("an unknown item in a recipe", EPISODE, "item: starflour", "item: stairflour", "no item 'stairflour'",
        "'starflour'"),
    Bad("grams in words", EPISODE, "grams: 440", "grams: lots", "'lots' is no number", "digits"),
    Bad("an episode's lost trial", EPISODE, "[moon-spoons]", "[moon-spons]", "no trial 'moon-spons'", "'moon-spoons'",
        at="id: moon-bread"),
    Bad("a factor of nothing", "measures.yaml", "1.25 to 1.75", "0 ± 0.1", "not above zero", "1.5 ± 0.25"),
    Bad("a way of filling twice", "measures.yaml", "  families: [sugar]\n", "", "measure.packed is given twice",
        "keep one",
        at="- word: packed\n  factor: 1.3"),
)  # fmt: skip


@pytest.mark.parametrize("bad", BAD, ids=[bad.name.replace(" ", "-") for bad in BAD])
def test_a_bad_file_gives_the_right_problem_at_the_right_line(bad: Bad, folder: Path) -> None:
    """The problem names the file and the line, says what is wrong and what to do, and nothing else is complained of."""
    path = folder / bad.file
    good = path.read_text(encoding="utf-8")
    assert bad.old in good
    spoilt = good.replace(bad.old, bad.new, 1)
    path.write_text(spoilt, encoding="utf-8")
    problems = load_knowledge(folder)[1]
    found = [p for p in problems if bad.says in p.message and bad.do in p.remedy]
    assert [p.place for p in found[:1]] == [Place(f"knowledge/{bad.file}", _line(good, spoilt, bad.at))], [
        *map(str, problems)
    ]
    assert len(problems) == 1 + bad.others, [*map(str, problems)]


def _line(good: str, spoilt: str, at: str) -> int:
    """The 1-based line where `at` starts, or the first line that differs."""
    if at:
        return spoilt[: spoilt.index(at)].count("\n") + 1
    pairs = zip(good.splitlines(), spoilt.splitlines(), strict=False)
    return next(i for i, (a, b) in enumerate(pairs, start=1) if a != b)


def test_the_table_is_long_enough() -> None:
    """Forty bad files or more, each under a name of its own."""
    assert len({bad.name for bad in BAD}) == len(BAD) >= 40
