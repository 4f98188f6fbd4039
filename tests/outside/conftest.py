"""Databases to test on: SQLite always, PostgreSQL where a server can be started or is named."""

from __future__ import annotations

import getpass
import os
import shutil
import socket
import subprocess
import tempfile
from collections.abc import Iterator
from itertools import count
from pathlib import Path

import pytest
from sqlalchemy import create_engine, text

from qa.outside.store import Store

_names = count(1)


def _program(name: str) -> str | None:
    """A server program on the path, or where Debian keeps it."""
    kept = sorted(Path("/usr/lib/postgresql").glob(f"*/bin/{name}"))
    return str(kept[-1]) if kept else shutil.which(name)


def _run(user: str, folder: Path, *command: str) -> None:
    subprocess.run(command, user=user, cwd=folder, check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)


@pytest.fixture(scope="session")
def postgres() -> Iterator[str]:
    """URL of a PostgreSQL server: LEVELSPOON_TEST_POSTGRES if it is set, else one of our own for this run."""
    if named := os.environ.get("LEVELSPOON_TEST_POSTGRES"):
        yield named
        return
    pytest.importorskip("psycopg", reason="psycopg is not installed")
    initdb, pg_ctl = _program("initdb"), _program("pg_ctl")
    if not initdb or not pg_ctl:
        pytest.skip("no PostgreSQL server on this machine; name one in LEVELSPOON_TEST_POSTGRES")
    user = "postgres" if getpass.getuser() == "root" else getpass.getuser()  # the server refuses to run as root
    folder = Path(tempfile.mkdtemp(prefix="levelspoon-pg-"))
    try:
        shutil.chown(folder, user)
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            port = free.getsockname()[1]
        options = f"-p {port} -c listen_addresses=127.0.0.1 -k {folder} -c fsync=off"
        _run(user, folder, initdb, "-D", "data", "-U", "tester", "-A", "trust", "-E", "UTF8")
        _run(user, folder, pg_ctl, "-D", "data", "-o", options, "-w", "-l", "log", "start")
    except (OSError, LookupError, subprocess.CalledProcessError) as fault:
        pytest.skip(f"a PostgreSQL server cannot be started here: {fault}")
    yield f"postgresql://tester@127.0.0.1:{port}/postgres"
    _run(user, folder, pg_ctl, "-D", "data", "-m", "immediate", "stop")
    shutil.rmtree(folder, ignore_errors=True)


@pytest.fixture(scope="session")
def ready_made(postgres: str) -> str:
    """Name of a PostgreSQL database with the present tables; copies of it are quick to make."""
    url = fresh_database(postgres)
    Store.open(url).close()
    return url.rsplit("/", 1)[1]


@pytest.fixture(params=["sqlite", "postgresql"])
def empty_url(request: pytest.FixtureRequest, tmp_path: Path) -> str:
    """URL of a fresh database of either kind, without tables."""
    if request.param == "sqlite":
        return f"sqlite:///{tmp_path / 'store.db'}"
    return fresh_database(request.getfixturevalue("postgres"))


@pytest.fixture(params=["sqlite", "postgresql"])
def url(request: pytest.FixtureRequest, tmp_path: Path) -> str:
    """URL of a fresh database of either kind, with or without tables."""
    if request.param == "sqlite":
        return f"sqlite:///{tmp_path / 'store.db'}"
    return fresh_database(request.getfixturevalue("postgres"), request.getfixturevalue("ready_made"))


def fresh_database(server: str, template: str = "template1") -> str:
    """A new database on a PostgreSQL server."""
    name = f"levelspoon_{os.getpid()}_{next(_names)}"
    engine = create_engine(server.replace("postgresql:", "postgresql+psycopg:"), isolation_level="AUTOCOMMIT")
    with engine.connect() as connection:
        connection.execute(text(f"CREATE DATABASE {name} TEMPLATE {template}"))
    engine.dispose()
    return f"{server.rsplit('/', 1)[0]}/{name}"


@pytest.fixture
def store(url: str) -> Iterator[Store]:
    """A fresh store on either kind of database."""
    with Store.open(url) as opened:
        yield opened
