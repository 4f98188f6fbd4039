"""What is owed: answers now possible, corrections now needed, contradictions to put right."""

import dataclasses

from qa.records import Ask, Comment, Draft, FactUse, Matched, Said, Understood
from qa.stages.owe import owe

FACT = "moonflour.fine.bulk-density.moon-tables"
ASK = Ask("weight", 0, 1, "?", ("moonflour",))


def said(key, *, status="needs_you", signed="", facts=(), conflict="", episode="e1"):
    understood = Understood(key, "?", "en", (), (), (), (), conflict=conflict)
    return Said(Comment(key, "?", episode=episode), understood, Draft(key, status, facts=facts), signed)


def drafted(key):
    return Draft(key, "drafted", matched=(Matched(ASK, "weigh-moonflour", 0.9),))


def test_an_old_question_that_can_now_be_answered(moon):
    owed = owe([said("a"), said("b"), said("c")], {"a": drafted("a"), "b": drafted("b")}, moon)
    assert [(debt.what, debt.comments) for debt in owed.answerable] == [("now answered by weigh-moonflour", ("a", "b"))]


def test_what_was_answered_or_signed_before_is_not_owed_again(moon):
    before = [said("a", status="drafted"), said("b", signed="my words")]
    assert owe(before, {"a": drafted("a"), "b": drafted("b")}, moon).answerable == ()


def test_a_signed_reply_on_a_changed_or_vanished_fact_needs_correcting(moon):
    now = moon.use(FACT)
    old = dataclasses.replace(now, version="0" * 12)
    gone = FactUse("moonflour.fine.water.nobody", "published", "nobody", "1" * 12)
    rows = [
        said("same", signed="x", facts=(now,)),
        said("changed", signed="x", facts=(old,)),
        said("gone", signed="x", facts=(gone,)),
        said("unsigned", facts=(old,)),
    ]
    owed = owe(rows, {}, moon)
    assert {debt.comments for debt in owed.corrections} == {("changed",), ("gone",)}
    assert any("no longer" in debt.what for debt in owed.corrections)


def test_counts_and_rules_have_no_version_and_need_no_correction(moon):
    assert owe([said("a", signed="x", facts=(moon.use("reports:moonflour"),))], {}, moon).corrections == ()


def test_contradictions_are_gathered_by_episode_with_everyone_who_noticed(moon):
    rows = [
        said("a", conflict="video 2, pdf 3"),
        said("b", conflict="2 or 3 eggs?"),
        said("c", conflict="x", episode="e2"),
    ]
    owed = owe(rows, {}, moon)
    assert [debt.comments for debt in owed.conflicts] == [("a", "b"), ("c",)]
    assert owed.conflicts[0].what.startswith("e1: ")
