"""The week in Debian's Chromium: sign, edit, undo, teach, sign a topic, kill the server mid-edit, two browsers, export.

Skipped, with the reason said, where there is no Chromium or Playwright.
"""

from __future__ import annotations

import os
import re
import shutil
import signal
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import dataclass
from http.client import HTTPConnection
from pathlib import Path
from typing import Any

import pytest

from qa.workbench import Workbench

from .conftest import fill

sync_api = pytest.importorskip("playwright.sync_api", reason="Playwright is not installed: pip install -e '.[checks]'")
CHROMIUM = shutil.which("chromium") or shutil.which("chromium-browser")
pytestmark = pytest.mark.skipif(CHROMIUM is None, reason="no Chromium here: apt-get install chromium")
ARGUMENTS = (
    "--headless --no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking "
    "--disable-component-update --disable-sync"
).split()
SCHEMES = ("light", "dark")
WIDTHS = (1280, 390)
SLOW = 240_000  # milliseconds; fitting the learned parts anew on a busy machine
# Each process that runs tests has ports of its own, so that a killed server comes back under the same address.
PORT_HERE = 18_500 + 100 * int(os.environ.get("PYTEST_XDIST_WORKER", "gw0")[2:])
expect = sync_api.expect
expect.set_options(timeout=60_000)  # a busy machine is slow; how fast pages are is for the benchmark to say


@dataclass
class Running:
    """A notebook served by a process of its own."""

    folder: Path
    address: str
    process: subprocess.Popen[str]

    @property
    def base(self) -> str:
        return self.address.partition("/open")[0]

    def kill(self) -> None:
        """As a power cut would."""
        self.process.kill()
        self.process.wait()
        if self.process.stdout is not None:
            self.process.stdout.close()


def served(folder: Path, port: int) -> Running:
    """Start `levelspoon review` and read the address it prints."""
    command = [
        sys.executable,
        "-m",
        "qa",
        "review",
        "--no-browser",
        "--port",
        str(port),
        "--who",
        "Ana",
        "--at",
        str(folder),
    ]
    process = subprocess.Popen(command, stdout=subprocess.PIPE, text=True, env={**os.environ, "PYTHONUNBUFFERED": "1"})
    assert process.stdout is not None
    for line in process.stdout:
        if found := re.search(r"http://\S+", line):
            return Running(folder, found[0], process)
    process.stdout.close()
    raise AssertionError("no address was printed")


@pytest.fixture
def running(shelf: Workbench, tmp_path: Path) -> Iterator[Running]:
    """A fresh store of invented comments, served."""
    folder = tmp_path / "bench"
    shutil.copytree(shelf.folder, folder)
    bench = Workbench.open(folder)
    bench.__dict__["library"] = shelf.library
    fill(bench)
    bench.store.close()
    notebook = served(folder, PORT_HERE)
    yield notebook
    notebook.kill()


@pytest.fixture(scope="module")
def browser() -> Iterator[Any]:
    with sync_api.sync_playwright() as playwright:
        chromium = playwright.chromium.launch(executable_path=CHROMIUM, args=ARGUMENTS)
        yield chromium
        chromium.close()


def opened(browser: Any, running: Running, **context: Any) -> Any:
    """A page of a browser that has opened the printed address; a fault in our script fails the test."""
    page = browser.new_context(**context).new_page()
    page.faults = []
    page.on("pageerror", lambda fault: page.faults.append(str(fault)))
    turn_to(page, running.address)
    return page


def turn_to(page: Any, address: str) -> None:
    """Open a sheet and wait for it: one that is still being worked out says so first, and turns up by itself."""
    page.goto(address)
    page.locator("body:not(:has([data-again])) > footer").wait_for(timeout=SLOW)
    page.wait_for_load_state()


def store_of(running: Running) -> Any:
    return Workbench.open(running.folder).store


def go(page: Any, running: Running, key: str) -> None:
    turn_to(page, f"{running.base}/comment?id={key}")


def test_a_good_draft_takes_one_key_and_one_page(browser, running):
    """From the first sheet on: n begins, s signs and turns, whatever the next sheet holds."""
    page = opened(browser, running)
    loads = []
    page.on("response", lambda r: loads.append(r.url) if r.request.is_navigation_request() and r.ok else None)
    page.keyboard.press("n")
    expect(page.locator("h2").first).to_contain_text("ottilie_bakes")
    page.keyboard.press("n")
    expect(page).to_have_url(re.compile("flax-3"))
    loads.clear()
    page.keyboard.press("s")
    expect(page).to_have_url(re.compile("flax-2"))
    assert len(loads) == 1
    assert store_of(running).entry("flax-3").signed
    expect(page.locator(".lastly")).to_contain_text("Signed a moment ago")
    page.keyboard.press("u")
    expect(page).to_have_url(re.compile("flax-3"))
    assert store_of(running).entry("flax-3").signed == ""
    assert page.faults == []


def test_an_edit_is_vouched_as_typed_and_survives_a_kill_of_the_server(browser, running):
    page = opened(browser, running)
    go(page, running, "flax-3")
    page.keyboard.press("c")
    page.keyboard.type(" Soak it 25 minutes.")
    expect(page.locator("#kept")).to_contain_text("Kept.")
    expect(page.locator(".mirror .loose")).to_have_text("25")
    expect(page.locator("#margin")).to_contain_text("Nothing vouches for this number.")
    running.kill()
    page.keyboard.type(" Typed into the dark.")
    expect(page.locator("#kept")).to_contain_text("The program does not answer")
    assert store_of(running).entry("flax-3").text.endswith("Soak it 25 minutes.")

    again = served(running.folder, int(running.base.rpartition(":")[2]))
    try:
        turn_to(page, again.address)
        go(page, again, "flax-3")
        expect(page.locator("#answer")).to_have_value(re.compile("25 minutes.$"))
        page.get_by_text("Put back what was typed here and not kept").click()
        expect(page.locator("#kept")).to_contain_text("Kept.")
        assert store_of(running).entry("flax-3").text.endswith("Typed into the dark.")
        page.get_by_role("button", name="it is mine").click()
        expect(page.locator("#margin")).to_contain_text("by your word")
        page.keyboard.press("s")
        expect(page).to_have_url(re.compile("flax-2"))
        (own,) = store_of(running).entry("flax-3").decision.own
        assert own.text == "25 minutes"
        assert page.faults == []
    finally:
        again.kill()


def test_an_edit_survives_a_kill_of_the_browser(browser, running):
    page = opened(browser, running)
    go(page, running, "flax-2")
    page.locator("#answer").fill("About 14 g, levelled.")
    expect(page.locator("#kept")).to_contain_text("Kept.")
    page.context.close()
    assert store_of(running).entry("flax-2").text == "About 14 g, levelled."


def test_signing_while_words_are_on_their_way_signs_those_words(browser, running):
    page = opened(browser, running)
    go(page, running, "flax-2")
    page.locator("#answer").fill("About 14 g, and level it.")
    page.get_by_role("button", name=re.compile("^Sign")).click()
    expect(page).not_to_have_url(re.compile("flax-2"))
    assert store_of(running).entry("flax-2").signed == "About 14 g, and level it."


def test_two_browsers_on_one_comment(browser, running):
    first, second = opened(browser, running), opened(browser, running)
    for page in (first, second):
        go(page, running, "flax-3")
    first.locator("#answer").fill("First: about 21 g.")
    expect(first.locator("#kept")).to_contain_text("Kept.")
    second.locator("#answer").fill("Second: about 21 g.")
    expect(second.locator("#kept")).to_contain_text("changed its wording since you opened it")
    assert store_of(running).entry("flax-3").text == "First: about 21 g."
    second.keyboard.press("Escape")
    second.keyboard.press("s")
    expect(second.locator("h1")).to_have_text("It changed meanwhile")
    second.keyboard.press("m")
    expect(second.locator("#answer")).to_have_value("Second: about 21 g.")
    assert store_of(running).entry("flax-3").text == "Second: about 21 g."


def test_a_topic_is_signed_with_one_key_and_everything_is_taken_out(browser, running):
    page = opened(browser, running, accept_downloads=True)
    turn_to(page, f"{running.base}/topic?id=weight:flax")
    page.keyboard.press("s")
    expect(page.locator(".lastly")).to_contain_text("2 signed a moment ago")
    turn_to(page, f"{running.base}/signed")
    with page.expect_download() as download:
        page.keyboard.press("v")
    assert "flax-3" in Path(download.value.path()).read_text()
    page.get_by_role("button", name="Mark as sent").first.click()
    expect(page.locator("main")).to_contain_text("1 is ready to take out; 1 went out")


def test_teaching_a_wrong_ingredient(browser, running):
    """The whole way, learned parts and all: the example is kept and the comment drafted anew."""
    page = opened(browser, running)
    go(page, running, "flax-2")
    page.keyboard.press("t")
    page.locator("input[name=item]").first.fill("whole flaxseed")
    page.locator("input[name=about]").first.fill("flax.whole")
    page.get_by_role("button", name="Teach this").click(timeout=SLOW)
    expect(page.locator(".lastly")).to_contain_text("Taught a moment ago", timeout=SLOW)
    expect(page.locator("aside").first).to_contain_text("whole flaxseed")
    (example,) = store_of(running).taught()
    assert example.mentions[0][2] == "flax.whole"


def test_it_works_without_javascript(browser, running):
    page = opened(browser, running, java_script_enabled=False)
    go(page, running, "flax-3")
    page.locator("#answer").fill("About 21 g; wait 25 minutes.")
    page.get_by_role("button", name=re.compile("^Sign")).click()
    expect(page.get_by_role("alert")).to_contain_text("nothing vouches for the boxed number")
    page.get_by_role("button", name="remove it").click()
    expect(page.locator("#answer")).to_have_value("About 21 g; wait minutes.")
    page.get_by_role("button", name=re.compile("^Sign")).click()
    assert store_of(running).entry("flax-3").signed == "About 21 g; wait minutes."
    page.get_by_role("button", name=re.compile("^undo")).click()
    assert store_of(running).entry("flax-3").signed == ""


def test_ctrl_c_ends_it_cleanly(running):
    asked = HTTPConnection(running.base.removeprefix("http://"))
    asked.request("GET", "/nowhere")
    assert asked.getresponse().status  # once it answers it heeds signals, even where the shell has them ignored
    asked.close()
    running.process.send_signal(signal.SIGINT)
    assert running.process.wait(20) == 0
    assert "Closed." in running.process.stdout.read()


SHEETS = [
    "/",
    "/comment?id=flax-3",
    "/comment?id=pills",
    "/comment?id=hostile",
    "/comment?id=careful",
    "/topic?id=weight:flax",
    "/tips",
    "/kitchen",
    "/larder",
    "/larder?asked=flax",
    "/larder/item?id=psyllium",
    "/larder/answer?id=weigh-any",
    "/larder/answers",
    "/larder/cautions",
    "/larder/sources",
    "/larder/add?comment=pills",
    "/larder/file?path=knowledge/ingredients/flax.yaml",
    "/sums?sum=weigh&amount=2+tbsp+potato+starch",
    "/signed",
    "/differs?id=flax-3",
    "/cite?id=flax-2&at=6-8",
    "/nowhere",
    "/teach?id=flax-3",
]


@pytest.mark.parametrize("scheme", SCHEMES)
@pytest.mark.parametrize("width", WIDTHS)
def test_axe_finds_nothing_and_nothing_runs_over_the_edge(browser, running, scheme, width):
    """Every sheet, by axe-core's whole rule set; the page is never wider than the window, at twice the size either."""
    axe = pytest.importorskip("axe_playwright_python.sync_playwright").Axe()
    store = store_of(running)
    store.change("flax-2", "About 14 g; wait 25 minutes.", "Ana", "2026-03-07T00:00:00+00:00")
    store.sign("flax-3", store.entry("flax-3").text, _seen(store, "flax-3"), "Ana", "2026-03-07T00:00:00+00:00")
    page = opened(
        browser,
        running,
        viewport={"width": width, "height": 900},
        color_scheme=scheme,
        reduced_motion="reduce",
        bypass_csp=True,
    )
    found = []
    for sheet in ["/comment?id=flax-2", *SHEETS]:
        turn_to(page, running.base + sheet)
        result = axe.run(page)
        found += [f"{sheet}: {v['id']}: {v['nodes'][0]['html'][:160]}" for v in result.response["violations"]]
        if page.evaluate("document.documentElement.scrollWidth") > width:
            found.append(f"{sheet}: wider than {width} pixels")
    assert found == []
    assert page.faults == []


def _seen(store, key):
    from qa.outside.store import seen_hash

    return seen_hash(store.entry(key).text)


def test_at_twice_the_size_nothing_is_cut_off(browser, running):
    """200 % zoom of a desk of 1280 pixels is a window of 640."""
    page = opened(browser, running, viewport={"width": 640, "height": 450})
    for sheet in SHEETS:
        turn_to(page, running.base + sheet)
        assert page.evaluate("document.documentElement.scrollWidth") <= 640, sheet
