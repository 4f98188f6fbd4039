"""Speed as a ratio against bare scikit-learn on the same texts in the same run: `python tests/benchmarks.py [N]`.

Bare means TF-IDF of words 1-2 and 100 mini-batch k-means groups, process start and reading the file included. Aims:
1,000 comments from file to drafts at most 3 times, 1,000,000 at most 4 times and under 3 GiB, ten times the comments at
most eleven times the time; `--help` within 6 times `python -c pass`. HTML that never ends: twenty times the text, about
twenty times the time.
"""

import json
import random
import re
import resource
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
BARE = """
import json, sys
from sklearn.cluster import MiniBatchKMeans
from sklearn.feature_extraction.text import TfidfVectorizer
texts = [json.loads(line)["text"] for line in open(sys.argv[1], encoding="utf-8")]
rows = TfidfVectorizer(ngram_range=(1, 2)).fit_transform(texts)
MiniBatchKMeans(100, random_state=1, n_init=1).fit_predict(rows)
"""
OURS = """
import sys
from pathlib import Path
from qa.workbench import Workbench
bench = Workbench.create(Path(sys.argv[2]))
bench.read(Path(sys.argv[1]))
bench.draft()
"""


def invented_comments(count: int, path: Path) -> None:
    """Distinct comments put together from sentences of the sample comments; about one in ten asks something."""
    rows = [
        json.loads(line)
        for file in sorted((ROOT / "sample_comments" / "labelled").glob("*.jsonl"))
        for line in file.read_text(encoding="utf-8").splitlines()
    ]
    sentences = {asks: [] for asks in (True, False)}
    for row in rows:
        sentences[bool(row["asks"])] += re.split(r"(?<=[.!?])\s+", row["text"])
    draw = random.Random(20260302)  # noqa: S311 - the same comments each time
    with path.open("w", encoding="utf-8") as out:
        for i in range(count):
            asks = draw.random() < 0.1
            parts = [draw.choice(sentences[asks]), draw.choice(sentences[False]), f"({i})"]
            out.write(json.dumps({"id": f"b{i}", "text": " ".join(parts), "author": f"viewer {i % 997}"}) + "\n")


def seconds(*command: str) -> tuple[float, float]:
    """Wall seconds of a command and the most memory any of our commands has used so far, in GiB."""
    begun = time.perf_counter()
    subprocess.run(command, check=True, cwd=ROOT, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    taken = time.perf_counter() - begun
    return taken, resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 2**20


def compare(count: int, folder: Path) -> float:
    """Print and give the seconds ours takes for so many comments."""
    path = folder / f"{count}.jsonl"
    invented_comments(count, path)
    ours, memory = seconds(sys.executable, "-c", OURS, str(path), str(folder / f"bench-{count}"))
    bare, _ = seconds(sys.executable, "-c", BARE, str(path))
    print(
        f"{count:>9,} comments: ours {ours:.1f} s, bare {bare:.1f} s, ratio {ours / bare:.2f}, up to {memory:.2f} GiB"
    )
    return ours


def endless() -> None:
    """Print how the time to undo HTML grows with its length, for beginnings that never end."""
    from qa.outside.intake.values import plain

    for part in ("<br", "<a href=", "&amp", "<script>", "&#", "<p ", "</", "<style><"):
        times = []
        for repeats in (5_000, 100_000):
            begun = time.perf_counter()
            plain(part * repeats)
            times.append(time.perf_counter() - begun)
        print(f"{part!r} without end, twenty times the text: {times[1] / times[0]:.0f} times the time")


def main(most: int) -> None:
    """Every measure, smallest first."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        start = min(seconds(sys.executable, "-c", "pass")[0] for _ in range(5))
        help_ = min(seconds(sys.executable, "-m", "qa", "--help")[0] for _ in range(5))
        print(f"--help {help_:.3f} s, python -c pass {start:.3f} s, ratio {help_ / start:.1f}")
        load = "from qa.workbench import Workbench as W; import time; t = time.perf_counter(); W.starter().library; "
        shown = subprocess.run(
            [sys.executable, "-c", load + "print(time.perf_counter() - t)"],
            check=True, cwd=ROOT, capture_output=True, text=True,
        )  # fmt: skip
        print(f"loading all knowledge {float(shown.stdout):.2f} s")
        question = "how many grams is 3 tbsp of ground flaxseed?"
        seconds(sys.executable, "-m", "qa", "ask", question)  # the learned parts are fitted once and kept
        print(f"ask, process start included {seconds(sys.executable, '-m', 'qa', 'ask', question)[0]:.2f} s")
        endless()
        before = compare(1_000, folder)
        count = 10_000
        while count <= most:
            now = compare(count, folder)
            print(f"          ten times the comments: {now / before:.1f} times the time")
            before, count = now, count * 10


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 10_000)
