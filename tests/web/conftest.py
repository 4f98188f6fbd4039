"""A small workbench of invented comments with drafts made by hand, and a browser's client for its pages."""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from pathlib import Path

import pytest
from httpx2 import Response
from starlette.testclient import TestClient

from qa.knowledge.library import Library
from qa.measures.parse import find_amounts
from qa.outside.store import seen_hash
from qa.records import Ask, Comment, Draft, Figure, Matched, Mention, Placed, Status, Topic, Understood
from qa.settings import Settings
from qa.web.app import make_app
from qa.web.desk import Desk
from qa.web.guard import Secrets
from qa.web.sheets.comment import standing_of, text_in_hand
from qa.workbench import Workbench

PORT = 8417
ORIGIN = f"http://127.0.0.1:{PORT}"
HOSTILE = (
    "<script>alert(1)</script><img src=x onerror=alert(1)> {{ 7193*11 }} {% raw %} \u202emarg 3\u202c & </textarea> \"'"
)


@pytest.fixture(scope="session")
def shelf(tmp_path_factory: pytest.TempPathFactory) -> Workbench:
    """A workbench whose knowledge is read once for all tests; its store stays empty."""
    settings = Settings(channel="Quillberry Test Kitchen", invented=True)
    bench = Workbench.create(tmp_path_factory.mktemp("web") / "bench", settings)
    assert bench.library.has("flax.ground")
    return bench


@pytest.fixture
def bench(shelf: Workbench, tmp_path: Path) -> Iterator[Workbench]:
    """A workbench with a store of its own over the shared knowledge."""
    assert shelf.folder is not None
    store = f"sqlite:///{tmp_path / 'levelspoon.db'}"
    own = Workbench(
        shelf.folder, shelf.folder / "knowledge", shelf.folder / "templates", replace(shelf.settings, store=store)
    )
    own.__dict__["library"] = shelf.library
    own._read_at = shelf._read_at
    fill(own)
    yield own
    own.store.close()


def flax_fact(library: Library) -> str:
    """The id of a bulk density of ground flaxseed."""
    return library.density("flax.ground")[0].id


def drafted(
    key: str, number: str, amount: str, library: Library, *, cautions: tuple[str, ...] = ()
) -> tuple[Understood, Draft]:
    """A weight question about ground flax, as it would be understood and drafted."""
    text = f"how many grams is {amount} ground flax??"
    start = text.index("ground flax")
    found = find_amounts(text)
    ask = Ask("weight", 0, len(text), text, ("flax.ground",), tuple(found))
    understood = Understood(
        key,
        text,
        "en",
        (("question", 0.97),),
        (),
        (Mention(start, start + 11, "ground flax", "flax", "ground"),),
        (ask,),
    )
    fact = flax_fact(library)
    value = float(number)
    figure = Figure(f"{number} g", value, value - 1, value + 1, "g", (fact,), f"{amount} × 7 g per tbsp = {number} g")
    reply = f"About {number} g for that much ground flaxseed, levelled with a knife."
    at = reply.index(figure.text)
    draft = Draft(
        key,
        "drafted",
        cautions=cautions,
        reply=reply,
        sureness=0.93,
        figures=(Placed(figure, at, at + len(figure.text)),),
        facts=(library.use(fact),),
        matched=(Matched(ask, "weigh-any", 0.93),),
    )
    return understood, draft


def plain(
    key: str, text: str, status: Status, reasons: tuple[str, ...] = (), **more: object
) -> tuple[Understood, Draft]:
    """A comment without a reply."""
    asks = (Ask("health" if "health" in reasons else "other", 0, len(text), text),) if status != "no_reply" else ()
    kinds = (("question", 0.9),) if asks else (("thanks", 0.9),)
    understood = Understood(key, text, "en", kinds, (), (), asks)
    return understood, Draft(key, status, reasons, matched=tuple(Matched(a, None, 0.0) for a in asks), **more)  # type: ignore[arg-type]


def fill(bench: Workbench) -> None:
    """Seven comments of every sort, two of them on one topic, in a store of their own."""
    library = bench.library
    made = [
        plain("thanks", "Lovely bake, thank you!", "no_reply", ("nothing_asked",)),
        drafted("flax-3", "21", "3 tbsp", library),
        drafted("flax-2", "14", "2 tbsp", library),
        plain(
            "pills",
            "I take blood thinners, is a spoon of flax a day ok?",
            "needs_you",
            ("health",),
            cautions=("S34",),
            note="Health question: only the person's doctor can say.",
        ),
        drafted("careful", "7", "1 tbsp", library, cautions=("S34",)),
        plain("hostile", HOSTILE, "needs_you", ("unsure",), note=f"No answer is sure enough. {HOSTILE}"),
        plain("a/long?id=<b>&x", "flour " * 200_000, "needs_you", ("too_long",)),
    ]
    bench.store.take_in(
        [
            Comment(
                u.comment,
                u.text,
                HOSTILE if u.comment == "hostile" else "ottilie_bakes",
                "2026-03-05T10:00:00Z",
                episode="seed-eggs",
            )
            for u, _ in made
        ],
        "week.csv",
        "2026-03-06T09:00:00+00:00",
    )
    bench.store.save([u for u, _ in made], [d for _, d in made])
    bench.store.save_topics(
        [
            Topic(
                "weight:flax",
                "what ground flaxseed weighs",
                "weight",
                ("flax.ground",),
                ("flax-3", "flax-2", "careful"),
                "2026-03-05",
                "2026-03-05",
                (("2026-W10", 3),),
            ),
            Topic("health:flax", "health and flaxseed", "health", ("flax",), ("pills",)),
            Topic("other:odd", "odd ones", "other", (), ("hostile", "a/long?id=<b>&x")),
        ]
    )


@dataclass
class Notebook:
    """A client that has opened the printed address."""

    client: TestClient
    bench: Workbench
    run: Secrets

    def turn_to(self, path: str, **values: str) -> Response:
        """A sheet; one that answers 202 is still being worked out beside the pages, and is looked for again."""
        for _ in range(400):
            if (answer := self.client.get(path, params=values)).status_code != 202:
                break
            time.sleep(0.05)
        return answer

    def see(self, path: str, **values: str) -> str:
        """A sheet's HTML."""
        answer = self.turn_to(path, **values)
        assert answer.status_code == 200, answer.text
        return answer.text

    def form(self, key: str, **more: str) -> dict[str, str]:
        """The form of a comment's sheet as a browser would send it now."""
        entry = self.bench.store.entry(key)
        text = text_in_hand(entry)
        return {
            "token": self.run.form_token,
            "id": key,
            "text": text,
            "seen": seen_hash(text),
            "standing": str(standing_of(entry.decision)),
            **more,
        }

    def act(self, path: str, form: dict[str, str], **headers: str):
        """Send a form; redirects are not followed."""
        return self.client.post(path, data=form, headers={"Origin": ORIGIN, **headers}, follow_redirects=False)


@pytest.fixture
def notebook(bench: Workbench, monkeypatch: pytest.MonkeyPatch) -> Iterator[Notebook]:
    """An open notebook; the learned parts are left cold."""
    monkeypatch.setattr(Desk, "warm", lambda _desk: None)
    run = Secrets.fresh()
    with TestClient(make_app(bench, PORT, run, who="Ana"), base_url=ORIGIN) as client:
        opened = Notebook(client, bench, run)
        assert opened.turn_to("/open", key=run.key).status_code == 200
        yield opened


@pytest.fixture
def closed(bench: Workbench) -> Callable[..., TestClient]:
    """Clients that have not opened the address."""
    run = Secrets.fresh()
    app = make_app(bench, PORT, run)
    return lambda base=ORIGIN: TestClient(app, base_url=base)
