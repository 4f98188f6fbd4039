"""Templates may write a number only as a figure; what viewers wrote is never template source."""

from pathlib import Path

import pytest

from qa.outside.render import BadTemplate, Gate, html_page
from qa.records import Figure, Numbered

MASS = Figure("21 g", 21.0, 20.1, 21.9, "g", ("flax.ground.bulk-density.usda-sr26",))


def test_places_are_those_of_the_finished_text():
    gate = Gate()
    part = gate.part("about {{ mass }} in all", {"mass": MASS})
    page = gate.unseal(gate.part("So: {{ part }}, {{ part }}.", {"part": part}))
    assert page.text == "So: about 21 g in all, about 21 g in all."
    assert [page.text[p.start : p.end] for p in page.placed] == ["21 g", "21 g"]


def test_a_name_with_a_numeral_is_noted_as_a_name():
    page = Gate().write("Use {{ name }}.", {"name": Numbered("type 00 flour")})
    assert [page.text[start:end] for start, end in page.names] == ["type 00 flour"]


@pytest.mark.parametrize(
    "source",
    [
        "{{ mass.value }}",
        "{{ 20 }}",
        "{{ unknown }}",
        "{{ mass.__class__ }}",
        "{% for x in range(10**9) %}x{% endfor %}",
        "{{ unclosed",
        "{% include '/etc/passwd' %}",
    ],
)
def test_what_a_template_may_not_do(source):
    with pytest.raises(BadTemplate):
        Gate().write(source, {"mass": MASS})


def test_a_viewers_braces_stay_text():
    page = Gate().write("You said {{ words }}.", {"words": "{{ mass }} {% raw %} ${7*7}"})
    assert page.text == "You said {{ mass }} {% raw %} ${7*7}."


def test_a_viewers_private_characters_cannot_stand_for_a_figure():
    page = Gate().write("{{ words }}: {{ mass }}", {"words": "\ue000\ue100\ue001", "mass": MASS})
    assert page.text == ": 21 g"
    assert len(page.placed) == 1


def test_html_is_escaped(tmp_path: Path):
    (tmp_path / "page.html.j2").write_text("<p>{{ words }}</p>", encoding="utf-8")
    assert (
        html_page(tmp_path, "page.html.j2", {"words": "<script>x</script>"}) == "<p>&lt;script&gt;x&lt;/script&gt;</p>"
    )
