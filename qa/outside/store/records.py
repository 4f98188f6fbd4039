"""What the store gives back beside the shared records."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from qa.records import Comment, Draft, Figure, Status, Understood

DecisionKind = Literal["changed", "signed", "sent", "laid_aside", "answered_myself"]
DECISION_KINDS: tuple[DecisionKind, ...] = ("changed", "signed", "sent", "laid_aside", "answered_myself")
SIGNED: tuple[DecisionKind, ...] = ("signed", "sent")
"""What stands when a person's word is given for the text."""
DECIDED: tuple[DecisionKind, ...] = (*SIGNED, "laid_aside", "answered_myself")
"""What stands when a person is done with a comment; a mere change is not."""


@dataclass(frozen=True, slots=True)
class ReadCount:
    """What became of the rows of one read: rows_read = stored + already_known + set_aside, always.

    Attributes:
        number: of this read, to list the rows it set aside.
    """

    rows_read: int
    stored: int
    already_known: int
    set_aside: int
    number: int = 0


@dataclass(frozen=True, slots=True)
class Decision:
    """What a person decided about one comment.

    Attributes:
        number: its place in the log, which only grows.
        text: the exact text signed, changed or sent; '' where there is none.
        who, at: as given by the caller.
        draft: the revision of the draft it was about; 0 if there was none.
        own: numbers the person vouched for in that text, as their own or by a fact they chose.
    """

    number: int
    comment: str
    kind: DecisionKind
    text: str
    who: str
    at: str
    draft: int
    own: tuple[Figure, ...] = ()


@dataclass(frozen=True, slots=True)
class Entry:
    """One comment with everything known of it; what is not there yet is None."""

    comment: Comment
    understood: Understood | None = None
    draft: Draft | None = None
    decision: Decision | None = None

    @property
    def text(self) -> str:
        """The text in hand: a person's words if there are any, else the draft's.

        >>> Entry(Comment("c1", "Chia?"), draft=Draft("c1", "drafted", reply="Yes, by weight.")).text
        'Yes, by weight.'
        """
        if self.decision is not None and self.decision.text:
            return self.decision.text
        return (self.draft.reply or "") if self.draft is not None else ""

    @property
    def signed(self) -> str:
        """The text a person signed, or ''."""
        return self.decision.text if self.decision is not None and self.decision.kind in SIGNED else ""

    @property
    def sent(self) -> bool:
        """Whether it was marked as sent."""
        return self.decision is not None and self.decision.kind == "sent"


@dataclass(frozen=True, slots=True)
class Correction:
    """Where a viewer says that video and written recipe disagree, in the viewer's words."""

    episode: str
    comment: str
    author: str
    words: str


@dataclass(frozen=True, slots=True)
class Waiting:
    """A comment that waits for a person: its draft's status and reasons, and its topic or ''."""

    comment: str
    status: Status
    reasons: tuple[str, ...]
    topic: str
