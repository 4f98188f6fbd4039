"""The JSON shapes other people's scripts rely on, and how records become them; `levelspoon schema` prints them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from typing_extensions import TypedDict

from qa.errors import Problem
from qa.measures.parse import Amount
from qa.records import Comment, Draft, FactUse, Figure, Mention, Placed, SetAside, Status, Topic, Understood


class AmountShape(TypedDict):
    """An amount as its writer gave it."""

    value: float
    low: float
    high: float
    unit: str


class MentionShape(TypedDict):
    """An ingredient found in the text; start and end are characters, end exclusive."""

    start: int
    end: int
    text: str
    ingredient: str
    form: str
    amount: AmountShape | None
    sureness: float


class AskShape(TypedDict):
    """One thing asked, with the id of the standing answer found for it."""

    type: str
    ingredients: list[str]
    answer: str | None
    sureness: float


class FigureShape(TypedDict):
    """A number in the reply; start and end are characters of the reply (of `part` where there is no reply)."""

    text: str
    start: int
    end: int
    value: float
    low: float
    high: float
    unit: str
    facts: list[str]
    working: str


class FactShape(TypedDict):
    """A fact the reply leans on."""

    id: str
    tier: str
    source: str


class ReplyShape(TypedDict):
    """One comment with its draft: `ask --json` and each line of `export replies --format jsonl`."""

    comment_id: str
    episode: str
    author: str
    text: str
    language: str
    kinds: list[str]
    topic: str
    mentions: list[MentionShape]
    asks: list[AskShape]
    status: Status
    reasons: list[str]
    cautions: list[str]
    reply: str | None
    part: str | None
    note: str
    sureness: float
    figures: list[FigureShape]
    facts: list[FactShape]


class SetAsideShape(TypedDict):
    """An input row that did not become a comment."""

    file: str
    row: int
    reason: str


class ReadShape(TypedDict):
    """`read --json`: rows_read = stored + already_known + the number of rows set aside."""

    rows_read: int
    stored: int
    already_known: int
    set_aside: list[SetAsideShape]


class WorkedShape(TypedDict):
    """A figure worked out beside the main one of a sum."""

    text: str
    value: float
    low: float
    high: float
    unit: str
    working: str
    facts: list[str]


class SumShape(TypedDict):
    """What every sum prints; text is the value as it would be shown, assumed what was taken for granted."""

    text: str
    assumed: str
    amount: str
    ingredient: str
    form: str
    value: float
    low: float
    high: float
    unit: str
    working: str
    facts: list[str]


class OtherShape(WorkedShape):
    """The same sum by another source, with how that source filled its measure."""

    packing: str
    source: str


class WeighShape(SumShape):
    """`weigh --json`; others are further sources, disagreement says where one differs beyond the spreads, else ''."""

    others: list[OtherShape]
    disagreement: str


class SwapShape(SumShape):
    """`swap --json`: value is the amount of `for_ingredient` that stands in; references says where tables differ."""

    for_ingredient: str
    for_form: str
    changes: str
    holds: str
    not_when: str
    extra: str
    references: str


class ReadingShape(WorkedShape):
    """Digestible carbohydrate as one region's labels count it; notes say what was refused or assumed."""

    region: str
    notes: list[str]


class CarbsShape(SumShape):
    """`carbs --json`: value is digestible carbohydrate in g, by the first of the readings."""

    readings: list[ReadingShape]


class ComparedShape(SumShape):
    """`carbs compare --json`: value is how many times apart two labels are; first and second are per 100 g."""

    first: WorkedShape
    second: WorkedShape
    explained: bool
    verdict: str


class LeavenShape(SumShape):
    """`leaven --json`: for baking powder, value is the soda that stands in; for soda, the soda that stays unspent.

    Parts are null where they do not apply: tartar (what uses up all the soda), share of the soda spent, gas freed,
    baking powder that lifts as much, and the popular spoon rule's verdict.
    """

    soda_spoons: WorkedShape | None
    tartar: WorkedShape | None
    tartar_spoons: WorkedShape | None
    share: WorkedShape | None
    gas: WorkedShape | None
    as_powder: WorkedShape | None
    signs: list[str]
    verdict: str


class SweetenShape(SumShape):
    """`sweeten --json`: value is the grams of `for_ingredient` that are equally sweet."""

    for_ingredient: str
    for_form: str
    bulk_lost: WorkedShape
    energy_saved: WorkedShape | None
    is_extract: bool
    changes: str


class ScaledLineShape(WorkedShape):
    """One line of a scaled recipe; was is its amount before."""

    ingredient: str
    form: str
    was: str


class ScaleShape(SumShape):
    """`scale --json`: value is the amount scaled, or the factor where no amount was given."""

    factor: WorkedShape
    lines: list[ScaledLineShape]
    watch: list[str]


class HeatReadingShape(TypedDict):
    """One reading of an oven setting on every scale; null where there is none to give."""

    scale: str
    celsius: WorkedShape | None
    fahrenheit: WorkedShape | None
    gas_mark: WorkedShape | None
    fan: WorkedShape | None


class CoreShape(TypedDict):
    """A core temperature that an authority calls safe."""

    food: str
    celsius: float
    printed: str
    authority: str
    source: str


class HeatShape(SumShape):
    """`heat --json`: value is in degC; readings for an oven setting, cores for a kind of food, else empty."""

    readings: list[HeatReadingShape]
    cores: list[CoreShape]
    cautions: list[str]


class CheckedShape(SumShape):
    """`check-sum --json`: value is the right result; right says whether the asker's stands."""

    kind: str
    right: bool
    verdict: str


class HeldFactShape(TypedDict):
    """A fact as the knowledge holds it; value, low, high and spread are null for a fact in words."""

    id: str
    item: str
    property: str
    text: str
    value: float | None
    spread: float | None
    low: float | None
    high: float | None
    unit: str
    conditions: dict[str, str]
    tier: str
    source: str
    short: str
    citation: str
    where: str
    checked: str
    note: str
    invented: bool
    file: str
    line: int


class ForestRowShape(TypedDict):
    """One source's value in the common unit, with its range."""

    fact: str
    label: str
    low: float
    value: float
    high: float


class AgreementShape(TypedDict):
    """What several sources say of one property; words is the sentence for a conflict, '' where they agree."""

    item: str
    property: str
    unit: str
    normalised_error: float
    verdict: str
    words: str
    rows: list[ForestRowShape]


class HeldSwapShape(TypedDict):
    """What can stand in for an item; ratio is how much of `use` for one of `replace`."""

    id: str
    replace: str
    use: str
    ratio: float
    spread: float
    by: str
    holds: str
    changes: str
    not_when: str
    extra: str
    tier: str
    source: str
    file: str
    line: int


class FactsShape(TypedDict):
    """`facts --json`: everything known of an ingredient or of one form of it; tiers strongest first."""

    ingredient: str
    form: str
    name: str
    tiers: dict[str, list[HeldFactShape]]
    swaps: list[HeldSwapShape]
    agreement: list[AgreementShape]


class ProblemShape(TypedDict):
    """Something wrong in a file: where, what, and what to do about it."""

    file: str
    line: int
    message: str
    remedy: str


class ProposalShape(TypedDict):
    """`learn --json`: a file to fill in; state says whether it was written, shown only, or there already."""

    file: str
    what: str
    asks: int
    comments: list[str]
    state: str
    text: str


class ImportShape(TypedDict):
    """`import-table --json`: facts that are new and facts known before; files with the lines that went into each."""

    rows_read: int
    facts: int
    already_known: int
    problems: list[ProblemShape]
    files: dict[str, str]


class TopicShape(TypedDict):
    """One line of `topics --json`."""

    id: str
    name: str
    type: str
    ingredients: list[str]
    asks: int
    comments: list[str]
    weeks: dict[str, int]
    took_in: list[str]
    parted_from: str


class RoundUpShape(TypedDict):
    """`roundup --json`: the sheet as text and as a page; figures by their place in the text."""

    title: str
    text: str
    html: str
    figures: list[FigureShape]
    facts: list[FactShape]
    left_out: list[dict[str, str]]


class TrialLineShape(TypedDict):
    """One line of `trial --json`: a kitchen test, how many readings it has, how many of those stand alone."""

    id: str
    title: str
    date: str
    levels: list[str]
    readings: int
    single: int
    fair: str
    invented: bool


class LevelShape(TypedDict):
    """The readings at one level; spread is that of the mean, deviation that of single readings, null for one alone."""

    level: str
    readings: list[float]
    mean: WorkedShape
    spread: float
    deviation: float | None
    resolution: float
    single: bool
    times_first: WorkedShape | None


class PairShape(TypedDict):
    """Two levels by Welch's test, corrected by Holm's method; null where one of them has a single reading.

    needed is how many readings of each would show such a difference, where it was not shown.
    """

    greater: str
    lesser: str
    p: WorkedShape | None
    corrected: WorkedShape | None
    told_apart: bool | None
    needed: WorkedShape | None
    words: str


class QuantityShape(TypedDict):
    """One quantity that was read; order names the levels, the greatest first, words tell of neighbours in it."""

    quantity: str
    unit: str
    levels: list[LevelShape]
    order: list[str]
    pairs: list[PairShape]
    words: list[str]


class DoseShape(TypedDict):
    """What a level got, as written and in grams; null where no bulk density is known."""

    level: str
    item: str
    amount: str
    grams: WorkedShape | None


class ChangeShape(TypedDict):
    """A dose beside the first level's: how many times it weighs, and how much would weigh as much."""

    level: str
    change: str
    times_first: WorkedShape | None
    equal: bool | None
    even: WorkedShape | None


class FairShape(TypedDict):
    """Whether only the factor changed: 'fair', 'not fair' or 'cannot tell', and why."""

    verdict: str
    words: list[str]
    figures: list[WorkedShape]
    doses: list[DoseShape]
    changes: list[ChangeShape]


class BesideShape(TypedDict):
    """Another source's value; beyond a normalised error of 1 it disagrees."""

    fact: str
    source: str
    tier: str
    value: WorkedShape
    normalised_error: float
    agrees: bool


class AgreedShape(TypedDict):
    """A fact the trial gave, beside what was known; pooled values only of what was measured or published."""

    fact: str
    what: str
    value: WorkedShape
    others: list[BesideShape]
    pooled_before: WorkedShape | None
    pooled_after: WorkedShape | None
    words: list[str]
    figures: list[WorkedShape]


class EffectShape(TypedDict):
    """What one suspect of a screening test did to a quantity; chances are null where no bake was left to judge by."""

    quantity: str
    suspect: str
    difference: WorkedShape
    p: WorkedShape | None
    corrected: WorkedShape | None


class TrialShape(TypedDict):
    """`trial ID --json`: single names what was read once only, gives the facts that came of it."""

    id: str
    title: str
    question: str
    invented: bool
    date: str
    episode: str
    factor: str
    levels: list[str]
    dose: str
    constant: list[str]
    quantities: list[QuantityShape]
    single: list[str]
    effects: list[EffectShape]
    fair: FairShape
    agreement: list[AgreedShape]
    observations: list[dict[str, str]]
    gives: list[str]


class SuspectShape(TypedDict):
    """One suspect: how many batches with it and without it had the outcome or had it not.

    by_recipe counts those that said nothing and count by the recipe, not_reported those that cannot be counted. odds is
    how many times the odds of the outcome are with it; corrected is null where too few batches tell of it.
    """

    suspect: str
    name: str
    with_had: int
    with_not: int
    without_had: int
    without_not: int
    by_recipe: int
    not_reported: int
    p: WorkedShape
    corrected: WorkedShape | None
    odds: WorkedShape
    goes: str
    words: str
    question: str


class SuspectsShape(TypedDict):
    """`trial --suspects OUTCOME --json`: own counts the kitchen's own batches, unsaid results that did not say."""

    outcome: str
    batches: int
    had: int
    had_not: int
    own: int
    unsaid: int
    suspects: list[SuspectShape]


class SheetShape(TypedDict):
    """A plan with its sheet as text and as a page; order names the level of each run, first to last."""

    topic: str
    question: str
    levels: list[str]
    order: list[str]
    bakes: WorkedShape
    text: str
    html: str
    figures: list[FigureShape]


class PlannedShape(SheetShape):
    """`trial --plan TOPIC --json`: the plan and the empty file of readings; state says whether it was written."""

    id: str
    file: str
    state: str
    readings: str


SHAPES: dict[str, Any] = {
    "ask": ReplyShape,
    "replies": ReplyShape,
    "read": ReadShape,
    "weigh": WeighShape,
    "swap": SwapShape,
    "carbs": CarbsShape,
    "carbs-compare": ComparedShape,
    "leaven": LeavenShape,
    "sweeten": SweetenShape,
    "scale": ScaleShape,
    "heat": HeatShape,
    "check-sum": CheckedShape,
    "facts": FactsShape,
    "learn": ProposalShape,
    "import-table": ImportShape,
    "topics": TopicShape,
    "roundup": RoundUpShape,
    "trials": TrialLineShape,
    "trial-report": TrialShape,
    "trial-plan": PlannedShape,
    "trial-suspects": SuspectsShape,
}


def reply_shape(comment: Comment, understood: Understood, draft: Draft) -> ReplyShape:
    """One comment with its draft in the contract's shape."""
    return {
        "comment_id": comment.id,
        "episode": comment.episode,
        "author": comment.author,
        "text": understood.text,
        "language": understood.language,
        "kinds": [kind for kind, _ in understood.kinds],
        "topic": understood.topic,
        "mentions": [mention_shape(mention) for mention in understood.mentions],
        "asks": [
            {
                "type": match.ask.type,
                "ingredients": list(match.ask.ingredients),
                "answer": match.answer,
                "sureness": round(match.sureness, 4),
            }
            for match in draft.matched
        ],
        "status": draft.status,
        "reasons": list(draft.reasons),
        "cautions": list(draft.cautions),
        "reply": draft.reply,
        "part": draft.part,
        "note": draft.note,
        "sureness": round(draft.sureness, 4),
        "figures": [figure_shape(placed) for placed in draft.figures],
        "facts": [fact_shape(use) for use in draft.facts],
    }


def fact_shape(use: FactUse) -> FactShape:
    """A fact in the contract's shape."""
    return {"id": use.id, "tier": use.tier, "source": use.source}


def mention_shape(mention: Mention) -> MentionShape:
    """A mention in the contract's shape."""
    return {
        "start": mention.start,
        "end": mention.end,
        "text": mention.text,
        "ingredient": mention.ingredient,
        "form": mention.form,
        "amount": amount_shape(mention.amount) if mention.amount else None,
        "sureness": round(mention.sureness, 4),
    }


def amount_shape(amount: Amount) -> AmountShape:
    """An amount in the contract's shape."""
    return {"value": amount.value, "low": amount.low, "high": amount.high, "unit": amount.unit}


def figure_shape(placed: Placed) -> FigureShape:
    """A figure with its place in the contract's shape."""
    return {**worked_shape(placed.figure), "start": placed.start, "end": placed.end}


def sum_shape(amount: str, item: str, figure: Figure, assumed: str = "") -> SumShape:
    """The result of a sum about one item in the contract's shape."""
    ingredient, _, form = item.partition(".")
    return {**worked_shape(figure), "assumed": assumed, "amount": amount, "ingredient": ingredient, "form": form}


def worked_shape(figure: Figure) -> WorkedShape:
    """A figure beside the main one in the contract's shape."""
    return {
        "text": figure.text,
        "value": figure.value,
        "low": figure.low,
        "high": figure.high,
        "unit": figure.unit,
        "working": figure.working,
        "facts": list(figure.facts),
    }


def problem_shape(problem: Problem) -> ProblemShape:
    """A problem in the contract's shape."""
    return {
        "file": problem.place.file,
        "line": problem.place.line,
        "message": problem.message,
        "remedy": problem.remedy,
    }


def proposal_shape(file: str, what: str, comments: Sequence[str], state: str, text: str) -> ProposalShape:
    """A file to fill in, in the contract's shape."""
    return {
        "file": file,
        "what": what,
        "asks": len(comments),
        "comments": list(comments),
        "state": state,
        "text": text,
    }


def read_shape(rows_read: int, stored: int, already_known: int, set_aside: Sequence[SetAside]) -> ReadShape:
    """The closing account of `read` in the contract's shape."""
    return {
        "rows_read": rows_read,
        "stored": stored,
        "already_known": already_known,
        "set_aside": [{"file": s.place.file, "row": s.place.line, "reason": s.reason} for s in set_aside],
    }


def topic_shape(topic: Topic) -> TopicShape:
    """A topic in the contract's shape."""
    return {
        "id": topic.id,
        "name": topic.name,
        "type": topic.type,
        "ingredients": list(topic.items),
        "asks": len(topic.comments),
        "comments": list(topic.comments),
        "weeks": dict(topic.weeks),
        "took_in": list(topic.merged),
        "parted_from": topic.parted,
    }


def schema(name: str) -> dict[str, Any]:
    """The JSON Schema of a shape.

    >>> schema("weigh")["properties"]["value"]["type"]
    'number'
    """
    from pydantic import TypeAdapter

    return {"$schema": "https://json-schema.org/draft/2020-12/schema", **TypeAdapter(SHAPES[name]).json_schema()}
