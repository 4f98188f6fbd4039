"""Nobody but this machine's browser, with this run's key, gets in; nothing changes by looking."""

from __future__ import annotations

import pytest

from qa.errors import LevelspoonError
from qa.web.guard import LARGEST_BODY, POLICY
from qa.web.pages import SHEETS
from qa.web.serve import free_socket

from .conftest import ORIGIN, PORT

PATHS = [path for path, _ in SHEETS] + [
    "/owed",
    "/signed",
    "/out/signed.csv",
    "/out/signed.txt",
    "/larder/answers",
    "/larder/cautions",
    "/larder/sources",
    "/larder/add",
]


@pytest.mark.parametrize(
    "host", ["evil.example", f"evil.example:{PORT}", "127.0.0.1", "127.0.0.1:80", "127.0.0.1.evil.example:8417"]
)
def test_another_host_name_is_refused(notebook, host):
    """A page elsewhere whose name was bent to this address (DNS rebinding) reaches nothing."""
    assert notebook.client.get("/", headers={"Host": host}).status_code == 403


@pytest.mark.parametrize("name", ["localhost", "[::1]"])
def test_other_names_of_the_loopback_address_are_taken(notebook, name):
    assert notebook.client.get("/ink/notebook.css", headers={"Host": f"{name}:{PORT}"}).status_code == 200


@pytest.mark.parametrize(
    "origin", ["http://evil.example", "null", "", f"https://127.0.0.1:{PORT}", "http://127.0.0.1:1"]
)
def test_a_form_from_elsewhere_is_refused(notebook, origin):
    form = notebook.form("flax-3")
    assert notebook.act("/sign", form, Origin=origin).status_code == 403
    assert notebook.bench.store.entry("flax-3").decision is None


def test_a_form_without_the_runs_token_is_refused(notebook):
    form = notebook.form("flax-3", token="0" * 64)
    assert notebook.act("/sign", form).status_code == 403
    assert notebook.bench.store.entry("flax-3").decision is None


def test_without_the_key_nothing_is_shown(closed):
    client = closed()
    for path in PATHS:
        answer = client.get(path)
        assert answer.status_code == 403, path
        assert "flax" not in answer.text
    assert client.get("/open", params={"key": "guess"}).status_code == 403


def test_the_key_comes_back_as_a_strict_cookie_and_leaves_the_address(notebook):
    answer = notebook.client.get("/open", params={"key": notebook.run.key}, follow_redirects=False)
    assert answer.status_code == 303
    assert answer.headers["location"] == "/"
    cookie = answer.headers["set-cookie"].lower()
    assert "httponly" in cookie
    assert "samesite=strict" in cookie
    assert notebook.run.key not in notebook.see("/")


def test_every_answer_carries_the_policy(notebook, closed):
    for answer in (
        notebook.client.get("/"),
        notebook.client.get("/no-such-sheet"),
        closed().get("/"),
        closed("http://evil.example").get("/"),
    ):
        assert answer.headers["content-security-policy"] == POLICY
        assert answer.headers["x-content-type-options"] == "nosniff"
    assert "unsafe" not in POLICY
    assert "default-src 'none'" in POLICY


@pytest.mark.parametrize(
    "path", ["/sign", "/typed", "/undo", "/teach", "/sign-together", "/sent", "/larder/add", "/mine"]
)
def test_no_act_answers_to_looking(notebook, path):
    before = notebook.bench.store.standing_counts()
    assert notebook.client.get(path, params=notebook.form("flax-3")).status_code in {200, 404, 405}
    assert notebook.bench.store.standing_counts() == before


def test_looking_at_every_sheet_changes_nothing(notebook):
    """The store's log is the same after a walk over every page."""
    walk = [*PATHS[:7], *PATHS[8:]]  # what is owed needs the learned parts
    for path in walk:
        assert notebook.turn_to(path).status_code == 200, path
    for key in ("flax-3", "pills", "hostile", "thanks"):
        for path in ("/comment", "/teach", "/differs", "/larder/add"):
            notebook.see(path, id=key)
    assert notebook.bench.store.standing_counts() == {}
    assert list(notebook.bench.store.taught()) == []


def test_a_body_beyond_bounds_is_refused(notebook):
    form = notebook.form("flax-3", text="x" * LARGEST_BODY)
    assert notebook.act("/typed", form).status_code == 413

    def endless():
        for _ in range(40):
            yield b"text=" + b"x" * 10_000

    kind = {"Origin": ORIGIN, "Content-Type": "application/x-www-form-urlencoded"}
    assert notebook.client.post("/typed", content=endless(), headers=kind).status_code == 413
    assert notebook.bench.store.entry("flax-3").decision is None


def test_a_file_is_never_taken(notebook):
    answer = notebook.client.post("/typed", data=notebook.form("flax-3"), files={"f": b"x"}, headers={"Origin": ORIGIN})
    assert answer.status_code == 400


@pytest.mark.parametrize("path", ["../levelspoon.toml", "/etc/passwd", "knowledge/../levelspoon.toml", "knowledge", ""])
def test_only_files_of_the_knowledge_are_shown(notebook, path):
    assert notebook.client.get("/larder/file", params={"path": path}).status_code == 404


def test_a_busy_port_is_passed_over():
    first = free_socket(18_417)
    try:
        second = free_socket(first.getsockname()[1])
        assert second.getsockname()[0] == "127.0.0.1"
        assert second.getsockname()[1] > first.getsockname()[1]
        second.close()
        with pytest.raises(LevelspoonError, match="no port"):
            free_socket(first.getsockname()[1], tries=1)
    finally:
        first.close()
