"""How quick the pages are over a large store: `python tests/benchmarks_web.py [COMMENTS]`. Not a timed test.

Fills a store with invented comments, then prints the 95th percentile of page loads and of signing, in server time.
"""

from __future__ import annotations

import statistics
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from random import Random

from starlette.testclient import TestClient

from qa.outside.store import seen_hash
from qa.records import Ask, Comment, Draft, Figure, Matched, Mention, Placed, Topic, Understood
from qa.settings import Settings
from qa.web.app import make_app
from qa.web.guard import Secrets
from qa.workbench import Workbench

PORT = 8417
ORIGIN = f"http://127.0.0.1:{PORT}"
_STATUSES = ("drafted",) * 5 + ("needs_you",) * 2 + ("ask_back",) + ("no_reply",) * 12
_BATCH = 5_000


def invented(bench: Workbench, number: int, chance: Random) -> Iterator[tuple[Comment, Understood, Draft]]:
    """Comments in natural proportions, with drafts made by hand: the pages are measured here, not the drafting."""
    fact = bench.library.density("flax.ground")[0].id
    use = bench.library.use(fact)
    for i in range(number):
        status = _STATUSES[chance.randrange(len(_STATUSES))]
        spoons = chance.randrange(1, 9)
        text = f"how many grams is {spoons} tbsp ground flax, for the muffins of week {i % 53}?"
        start = text.index("ground flax")
        ask = Ask("weight", 0, len(text), text, ("flax.ground",))
        asks = () if status == "no_reply" else (ask,)
        mention = Mention(start, start + 11, "ground flax", "flax", "ground")
        understood = Understood(f"c{i}", text, "en", (("question", 0.9),), (), (mention,), asks)
        shown = f"{7 * spoons} g"
        reply = f"About {shown} for that much ground flaxseed, levelled with a knife; a heaped spoon holds more."
        figure = Figure(shown, 7.0 * spoons, 7.0 * spoons, 7.0 * spoons, "g", (fact,), f"{spoons} tbsp × 7 g per tbsp")
        at = reply.index(shown)
        reasons = ("health",) if status == "needs_you" and i % 40 == 0 else ("unsure",) if status == "needs_you" else ()
        draft = (
            Draft(f"c{i}", status, reasons, matched=tuple(Matched(ask, "weigh-any", 0.9) for ask in asks))
            if status != "drafted"
            else Draft(
                f"c{i}",
                status,
                reply=reply,
                sureness=0.93,
                figures=(Placed(figure, at, at + len(shown)),),
                facts=(use,),
                matched=(Matched(ask, "weigh-any", 0.93),),
            )
        )
        yield (
            Comment(f"c{i}", text, f"viewer {i % 9_000}", f"2026-03-{1 + i % 28:02d}T10:00:00Z", episode="seed-eggs"),
            understood,
            draft,
        )


def filled(folder: Path, number: int) -> Workbench:
    """A workbench with so many comments, drafted and grouped into topics of about four hundred."""
    bench = Workbench.create(folder, Settings(channel="Benchmark", invented=True))
    rows = list(invented(bench, number, Random(7)))  # noqa: S311 - invented, the same each time
    bench.store.take_in((comment for comment, _, _ in rows), "week.csv", "2026-03-30T00:00:00+00:00")
    for start in range(0, number, _BATCH):
        part = rows[start : start + _BATCH]
        bench.store.save([u for _, u, _ in part], [d for _, _, d in part])
    asking = [comment.id for comment, understood, _ in rows if understood.asks]
    bench.store.save_topics(
        Topic(f"t{n}", f"topic {n}", "weight", ("flax.ground",), tuple(asking[n * 400 : (n + 1) * 400]), "2026-03-01")
        for n in range(1 + len(asking) // 400)
    )
    return bench


def timed(do: Callable[[], int]) -> float:
    """Milliseconds that a request took; it must succeed."""
    began = time.perf_counter()
    status = do()
    if status not in {200, 303}:
        raise SystemExit(f"a request was answered with {status}")
    return 1000 * (time.perf_counter() - began)


def told(name: str, took: list[float]) -> None:
    """One line: how many, the median and the 95th percentile."""
    ordered = sorted(took)
    at = ordered[min(len(ordered) - 1, int(0.95 * len(ordered)))]
    print(f"{name:<34} {len(took):>5}   median {statistics.median(took):>7.1f} ms   95 % within {at:>7.1f} ms")


def main(number: int) -> None:
    """Fill, load, sign, print."""
    with tempfile.TemporaryDirectory() as place:
        began = time.perf_counter()
        bench = filled(Path(place) / "bench", number)
        print(f"{number:,} comments stored in {time.perf_counter() - began:.0f} s")
        run = Secrets.fresh()
        with TestClient(make_app(bench, PORT, run, "benchmark"), base_url=ORIGIN) as client:
            client.get("/open", params={"key": run.key})
            first = timed(lambda: client.get("/", params={"count": "1"}).status_code)
            print(f"first count of the whole store: {first:.0f} ms")
            chance = Random(11)  # noqa: S311 - which pages to load, the same each time
            fixed = ["/", "/topic", "/larder", "/larder/item?id=flax", "/sums", "/signed", "/topic?answer=weigh-any"]
            for path in fixed:
                client.get(path)
                told(path, [timed(lambda path=path: client.get(path).status_code) for _ in range(30)])
            ids = [f"c{chance.randrange(number)}" for _ in range(300)]
            told(
                "/comment",
                [timed(lambda key=key: client.get("/comment", params={"id": key}).status_code) for key in ids],
            )
            waiting = [e.comment.id for e in bench.store.entries(status="drafted", limit=300)]
            told("sign", [timed(lambda key=key: sign(client, bench, run, key)) for key in waiting])
        bench.store.close()


def sign(client: TestClient, bench: Workbench, run: Secrets, key: str) -> int:
    """Send the form of a comment's sheet; where it leads is not followed."""
    entry = bench.store.entry(key)
    form = {"token": run.form_token, "id": key, "text": entry.text, "seen": seen_hash(entry.text), "standing": "0"}
    return client.post("/sign", data=form, headers={"Origin": ORIGIN}, follow_redirects=False).status_code


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 100_000)
