"""Signing, changing, teaching, taking back: what is signed is what was seen, and nobody overwrites anybody."""

from __future__ import annotations

import re

import pytest

from qa.outside.store import seen_hash

from .conftest import flax_fact


def test_signing_signs_the_text_seen_and_turns_to_what_still_waits(notebook):
    answer = notebook.act("/sign", notebook.form("flax-3"))
    entry = notebook.bench.store.entry("flax-3")
    assert answer.status_code == 303
    assert answer.headers["location"] == "/comment?id=flax-2"
    assert entry.signed == entry.draft.reply
    assert entry.decision.who == "Ana"
    assert "Signed a moment ago" in notebook.see("/comment", id="flax-2")


def test_line_ends_as_browsers_send_them_are_what_was_typed(notebook):
    text = "About 21 g.\n\nLevel it."
    notebook.act("/keep", notebook.form("flax-3", text=text.replace("\n", "\r\n")))
    assert notebook.bench.store.entry("flax-3").text == text


def test_a_draft_that_changed_meanwhile_is_not_signed_and_the_difference_is_shown(notebook):
    form = notebook.form("flax-3")
    entry = notebook.bench.store.entry("flax-3")
    from dataclasses import replace

    notebook.bench.store.save([entry.understood], [replace(entry.draft, reply="About 20 g for that.", figures=())])
    answer = notebook.act("/sign", form)
    assert answer.status_code == 409
    assert "It changed meanwhile" in answer.text
    assert "<del>" in answer.text
    assert "<ins>" in answer.text
    assert notebook.bench.store.entry("flax-3").decision is None


def test_a_fact_that_changed_meanwhile_is_told_before_signing(notebook):
    from dataclasses import replace

    entry = notebook.bench.store.entry("flax-3")
    old = replace(entry.draft, facts=(replace(entry.draft.facts[0], version="older"),))
    notebook.bench.store.save([entry.understood], [old])
    answer = notebook.act("/sign", notebook.form("flax-3"))
    assert answer.status_code == 409
    assert "changed since it was drafted" in answer.text
    assert "now says" in answer.text
    assert notebook.bench.store.entry("flax-3").signed == ""
    assert notebook.act("/sign", notebook.form("flax-3", anyway="yes")).status_code == 303
    assert notebook.bench.store.entry("flax-3").signed


def test_two_browsers_on_one_comment_never_overwrite_each_other(notebook):
    mine = notebook.form("flax-3", text="Mine: about 21 g.")
    theirs = notebook.form("flax-3", text="Theirs: 21 g, levelled.")
    assert notebook.act("/typed", theirs).status_code == 200
    answer = notebook.act("/typed", mine)
    assert answer.status_code == 409
    assert "changed its wording" in answer.json()["stale"]
    assert notebook.act("/sign", mine).status_code == 409
    assert notebook.bench.store.entry("flax-3").text == "Theirs: 21 g, levelled."
    late = notebook.form("flax-3", standing="0")
    assert notebook.act("/lay-aside", late).status_code == 409
    assert notebook.bench.store.entry("flax-3").decision.kind == "changed"


def test_a_caution_that_was_taken_out_holds_the_signature(notebook):
    answer = notebook.act("/sign", notebook.form("careful"))
    assert answer.status_code == 409
    assert "The usual caution is not in your text" in answer.text
    assert notebook.bench.store.entry("careful").signed == ""
    text = "About 7 g. " + notebook.bench.library.caution("S34").text
    assert notebook.act("/sign", notebook.form("careful", text=text)).status_code == 303
    assert notebook.bench.store.entry("careful").signed == text


def test_a_number_without_a_source_cannot_be_signed_but_is_kept(notebook):
    text = "About 21 g; soak it for 25 minutes."
    answer = notebook.act("/sign", notebook.form("flax-3", text=text))
    assert answer.headers["location"] == "/comment?id=flax-3&held=number"
    entry = notebook.bench.store.entry("flax-3")
    assert (entry.text, entry.signed) == (text, "")
    sheet = notebook.see("/comment", id="flax-3", held="number")
    assert "nothing vouches for the boxed number" in sheet
    assert '<span class="loose">25</span>' in sheet


def test_typed_words_come_back_with_their_marks(notebook):
    told = notebook.act("/typed", notebook.form("flax-3", text="About 21 g, or twice that.")).json()
    assert told["spans"] == [[6, 10, "figure"], [15, 20, "loose"]]
    assert told["seen"] == seen_hash("About 21 g, or twice that.")
    assert "it is mine" in told["margin"]


def test_taken_on_as_mine_a_number_is_recorded_with_the_signature(notebook):
    text = "About 21 g; soak it for 25 minutes, not 30."
    form = notebook.form("flax-3", text=text, at="24-26")
    assert notebook.act("/mine", form).status_code == 303
    assert [loose.text for loose in notebook.bench.checked(notebook.bench.store.entry("flax-3"), text).loose] == ["30"]
    text = text.replace(", not 30", "")
    notebook.act("/sign", notebook.form("flax-3", text=text))
    entry = notebook.bench.store.entry("flax-3")
    assert entry.signed == text
    assert [(figure.text, figure.working) for figure in entry.decision.own] == [
        ("25 minutes", "the tester's own number, Ana")
    ]


def test_a_number_can_be_led_back_to_a_fact(notebook):
    text = "About 21 g; a tbsp holds 7 grams."
    notebook.act("/keep", notebook.form("flax-3", text=text))
    page = notebook.see("/cite", id="flax-3", at="25-26")
    fact = flax_fact(notebook.bench.library)
    assert f'value="{fact}"' in page
    assert notebook.act("/cite", notebook.form("flax-3", at="25-26", fact=fact)).status_code == 303
    assert notebook.act("/sign", notebook.form("flax-3")).status_code == 303
    assert notebook.bench.store.entry("flax-3").decision.own[0].facts == (fact,)


def test_a_number_can_be_removed(notebook):
    notebook.act("/remove", notebook.form("flax-3", text="About 21 g, some 25 of it.", at="17-19"))
    assert notebook.bench.store.entry("flax-3").text == "About 21 g, some of it."


def test_undo_goes_back_act_by_act_without_end(notebook):
    reply = notebook.bench.store.entry("flax-3").draft.reply
    notebook.act("/typed", notebook.form("flax-3", text="About 21 g."))
    notebook.act("/typed", notebook.form("flax-3", text="About 21 g, levelled."))
    notebook.act("/sign", notebook.form("flax-3"))
    notebook.act("/lay-aside", notebook.form("pills"))
    token = {"token": notebook.run.form_token}
    seen = []
    for _ in range(3):
        notebook.act("/undo", token)
        entry = notebook.bench.store.entry("flax-3")
        seen.append((notebook.bench.store.entry("pills").decision, entry.signed, entry.text))
    assert seen == [
        (None, "About 21 g, levelled.", "About 21 g, levelled."),
        (None, "", "About 21 g, levelled."),
        (None, "", reply),
    ]
    assert notebook.act("/undo", token).status_code == 409


def test_undo_reaches_back_before_this_run(notebook):
    notebook.bench.store.lay_aside("flax-2", "Ana", "2026-03-01T00:00:00+00:00")
    notebook.act("/undo", {"token": notebook.run.form_token})
    assert notebook.bench.store.entry("flax-2").decision is None


def test_teaching_keeps_an_example_and_shows_the_corrected_reading(notebook, monkeypatch):
    """The new draft comes from the pipeline; here only that it is asked for with the corrected reading."""
    asked = []
    monkeypatch.setattr(type(notebook.bench), "_answer", lambda _bench, ones, _tallies: asked.extend(ones) or [])
    form = notebook.form("flax-3") | {
        "kind": "question",
        "words": "ground flax",
        "item": "whole flaxseed",
        "ask": "convert",
        "about": "flax.whole",
    }
    assert notebook.act("/teach", form).status_code == 303
    (example,) = notebook.bench.store.taught()
    assert example.mentions == ((25, 36, "flax.whole"),)
    assert example.asks == (("convert", ("flax.whole",)),)
    assert asked[0].mentions[0].item == "flax.whole"
    assert notebook.bench.store.entry("flax-3").understood.asks[0].type == "convert"
    notebook.act("/undo", {"token": notebook.run.form_token})
    assert list(notebook.bench.store.taught()) == []
    assert notebook.bench.store.entry("flax-3").understood.asks[0].type == "weight"


@pytest.mark.parametrize(
    ("field", "value", "says"),
    [
        ("words", "nowhere in it", "does not stand in the comment"),
        ("item", "moonflour", "nothing in the larder is called"),
    ],
)
def test_teaching_refuses_what_cannot_be(notebook, field, value, says):
    form = notebook.form("flax-3") | {"kind": "question", "words": "ground flax", "item": "flax.ground", field: value}
    answer = notebook.act("/teach", form)
    assert answer.status_code == 400
    assert says in answer.text.lower()
    assert list(notebook.bench.store.taught()) == []


def test_not_a_question_lays_aside_and_teaches_and_can_be_taken_back(notebook):
    notebook.act("/not-a-question", notebook.form("flax-3"))
    (example,) = notebook.bench.store.taught()
    assert (example.asks, example.status) == ((), "no_reply")
    assert "question" not in example.kinds
    assert notebook.bench.store.entry("flax-3").decision.kind == "laid_aside"
    notebook.act("/undo", {"token": notebook.run.form_token})
    assert notebook.bench.store.entry("flax-3").decision is None
    assert list(notebook.bench.store.taught()) == []


def test_a_topic_is_signed_together_but_for_what_changed(notebook):
    page = notebook.see("/topic", id="weight:flax")
    assert re.search(r'value="flax-3" checked', page)
    assert 'value="careful"' not in page, "its caution is not in the text, so it cannot be signed from here"
    form = {"token": notebook.run.form_token, "topic": "weight:flax"}
    for key in ("flax-3", "flax-2"):
        one = notebook.form(key)
        form |= {f"seen:{key}": one["seen"], f"standing:{key}": one["standing"]}
    form["ticked"] = ["flax-3", "flax-2"]
    notebook.bench.store.change("flax-2", "Somebody was faster: about 14 g.", "Ben", "")
    answer = notebook.act("/sign-together", form)
    assert answer.status_code == 409
    assert "1 signed, 1 held back" in answer.text
    assert notebook.bench.store.entry("flax-3").signed
    assert notebook.bench.store.entry("flax-2").signed == ""


def test_signed_together_is_taken_back_together(notebook):
    form = {"token": notebook.run.form_token, "topic": "weight:flax", "ticked": ["flax-3", "flax-2"]}
    for key in form["ticked"]:
        one = notebook.form(key)
        form |= {f"seen:{key}": one["seen"], f"standing:{key}": one["standing"]}
    assert notebook.act("/sign-together", form).status_code == 303
    assert notebook.bench.store.count(signed=True) == 2
    notebook.act("/undo", {"token": notebook.run.form_token})
    assert notebook.bench.store.count(signed=True) == 0


def test_signed_replies_are_taken_out_and_marked_as_sent(notebook):
    notebook.act("/sign", notebook.form("flax-3"))
    assert "About 21 g" in notebook.client.get("/out/signed.txt").text
    table = notebook.client.get("/out/signed.csv")
    assert table.headers["content-disposition"] == 'attachment; filename="signed.csv"'
    assert "flax-3" in table.text
    assert "flax-2" not in table.text
    form = notebook.form("flax-3", then="signed")
    assert notebook.act("/sent", form).headers["location"] == "/signed"
    assert notebook.bench.store.entry("flax-3").sent


def test_a_stub_is_written_asleep_into_its_file_and_shown(notebook, monkeypatch, tmp_path):
    """The lines lie in the ingredient's file, and the knowledge still loads without a new problem."""
    import shutil

    from qa.knowledge.load import load_knowledge

    folder = tmp_path / "bench"
    shutil.copytree(notebook.bench._knowledge, folder / "knowledge")
    monkeypatch.setattr(notebook.bench, "_knowledge", folder / "knowledge")
    _, before = load_knowledge(folder / "knowledge", invented=True)
    form = {"token": notebook.run.form_token, "item": "flax.ground", "property": "gel time", "why": "how long to soak?"}
    page = notebook.act("/larder/add", form)
    assert page.status_code == 200
    assert "knowledge/ingredients/flax.yaml, line" in page.text
    assert "#    property: gel time" in (folder / "knowledge/ingredients/flax.yaml").read_text()
    assert notebook.act("/larder/add", form | {"item": "Tigernut flour", "property": "bulk density"}).status_code == 200
    _, problems = load_knowledge(folder / "knowledge", invented=True)
    new = {problem.place.file for problem in problems} - {problem.place.file for problem in before}
    assert new == {"knowledge/ingredients/tigernut-flour.yaml"}


def test_a_store_that_goes_away_is_said_plainly(notebook, monkeypatch):
    from sqlalchemy.exc import OperationalError

    def gone(*_: object, **__: object) -> None:
        raise OperationalError("select", {}, Exception("unable to open database file"))

    monkeypatch.setattr(notebook.bench.store, "entry", gone)
    answer = notebook.client.get("/comment", params={"id": "flax-3"})
    assert answer.status_code == 503
    assert "The store cannot be reached" in answer.text
    assert "unable to open database file" in answer.text
