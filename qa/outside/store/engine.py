"""Opening a database: SQLite or PostgreSQL by URL, brought up to date, or one clear line why not."""

from __future__ import annotations

import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from sqlalchemy import Connection, Engine, Insert, create_engine, event, inspect, text
from sqlalchemy.engine import URL, make_url
from sqlalchemy.exc import ArgumentError, DBAPIError, NoSuchModuleError, SQLAlchemyError
from sqlalchemy.pool import StaticPool

from qa.errors import NoWorkbench
from qa.outside.store.tables import metadata

HEAD = "0004"
"""The newest step in migrations/versions; a test holds it to that."""
VERSION_TABLE = "levelspoon_version"
WAIT = 60
"""Seconds a writer waits for another to finish."""
_LOCK = 0x6C65_7665_6C73  # any fixed number, the same in every process: PostgreSQL's lock for one writer at a time


def open_engine(url: str) -> Engine:
    """A database of the newest form; NoWorkbench in one line if it cannot be."""
    parsed = _parsed(url)
    shown = parsed.database if parsed.get_backend_name() == "sqlite" else parsed.render_as_string(hide_password=True)
    try:
        engine = _engine(parsed)
    except ModuleNotFoundError as fault:
        raise NoWorkbench(f"PostgreSQL needs {fault.name}", "pip install 'levelspoon[team]'") from fault
    try:
        _migrate(engine, shown or "the store in memory")
    except NoWorkbench:
        engine.dispose()
        raise
    except (SQLAlchemyError, OSError) as fault:
        engine.dispose()
        raise NoWorkbench(
            f"{shown}: cannot be opened as a store ({_first_line(fault)})", "check the file or the server"
        ) from fault
    return engine


def _parsed(url: str) -> URL:
    try:
        parsed = make_url(url)
        backend = parsed.get_backend_name()
    except (ArgumentError, NoSuchModuleError) as fault:
        raise NoWorkbench(f"{url!r} is no database URL", "write sqlite:///levelspoon.db or postgresql://…") from fault
    if backend in {"postgresql", "postgres"}:
        return parsed.set(drivername="postgresql+psycopg")
    if backend != "sqlite":
        raise NoWorkbench(f"a store cannot be kept in {backend}", "write sqlite:///levelspoon.db or postgresql://…")
    folder = Path(parsed.database or ".").parent
    if not folder.is_dir():
        raise NoWorkbench(f"no such folder: {folder}", "check the store's name in levelspoon.toml")
    return parsed


def _first_line(fault: Exception) -> str:
    said = str(fault.orig) if isinstance(fault, DBAPIError) else str(fault)
    return (said.splitlines() or [type(fault).__name__])[0]


def _engine(url: URL) -> Engine:
    if url.get_backend_name() != "sqlite":
        engine = create_engine(url, pool_pre_ping=True)
        event.listen(engine, "begin", _one_writer)
        return engine
    in_memory = url.database in {None, "", ":memory:"}
    pool: dict[str, Any] = {"poolclass": StaticPool} if in_memory else {}
    engine = create_engine(url, connect_args={"timeout": WAIT, "check_same_thread": False}, **pool)
    event.listen(engine, "connect", _prepare)
    event.listen(engine, "begin", _begin)
    return engine


def _prepare(connection: Any, _record: object) -> None:
    """Set up one SQLite connection: transactions by hand, write-ahead log, every commit on the disk."""
    connection.isolation_level = None
    connection.execute("PRAGMA foreign_keys = ON")
    connection.execute("PRAGMA secure_delete = ON")  # what is forgotten is overwritten, not just unlinked
    connection.execute("PRAGMA synchronous = FULL")  # what was reported as saved survives a power cut
    connection.execute("PRAGMA cache_size = -65536")
    _use_write_ahead_log(connection)


def _use_write_ahead_log(connection: Any) -> None:
    """Two processes that open a new file at once get in each other's way here, and SQLite does not wait by itself."""
    import sqlite3

    for attempt in range(100):
        try:
            if connection.execute("PRAGMA journal_mode").fetchone()[0] in {"wal", "memory"}:
                return
            connection.execute("PRAGMA journal_mode = WAL")
        except sqlite3.OperationalError as fault:
            if "locked" not in str(fault) or attempt == 99:
                raise
            time.sleep(0.05)
        else:
            return


def _begin(connection: Connection) -> None:
    writes = connection.get_execution_options().get("writes")
    connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")


def _one_writer(connection: Connection) -> None:
    if connection.get_execution_options().get("writes"):
        connection.exec_driver_sql(f"SELECT pg_advisory_xact_lock({_LOCK})")


@contextmanager
def writing(engine: Engine) -> Iterator[Connection]:
    """A transaction that is the only writer; it is on the disk when this ends without a fault."""
    with engine.connect().execution_options(writes=True) as connection, connection.begin():
        yield connection


@contextmanager
def reading(engine: Engine) -> Iterator[Connection]:
    """A transaction that sees one state of the data."""
    with engine.connect() as connection, connection.begin():
        yield connection


def new_number(connection: Connection, statement: Insert) -> int:
    """Run an insert into a table with running numbers; the number that the row got."""
    key = connection.execute(statement).inserted_primary_key
    assert key is not None  # noqa: S101  (such a table always gives one)
    return int(key[0])


def _migrate(engine: Engine, shown: str) -> None:
    with reading(engine) as connection:
        if _version(connection, shown) == HEAD:
            _check_whole(connection, shown)
            return
    with writing(engine) as connection:
        if _version(connection, shown) != HEAD:
            _upgrade(connection)


def _version(connection: Connection, shown: str) -> str | None:
    """The step a database is at; None if it is new. Refuses what is newer than this program, or not ours."""
    there = set(inspect(connection).get_table_names())
    if VERSION_TABLE not in there:
        if taken := there & set(metadata.tables):
            raise NoWorkbench(
                f"{shown}: holds another program's table {min(taken)!r}", "name another database in levelspoon.toml"
            )
        return None
    found = connection.execute(text(f"SELECT version_num FROM {VERSION_TABLE}")).scalars().all()  # noqa: S608
    if not found:
        return None
    if found[0] > HEAD:
        raise NoWorkbench(
            f"{shown}: was written by a newer Levelspoon (step {found[0]}, this is {HEAD})", "update Levelspoon"
        )
    return str(found[0])


def _check_whole(connection: Connection, shown: str) -> None:
    missing = set(metadata.tables) - set(inspect(connection).get_table_names())
    if missing:
        raise NoWorkbench(f"{shown}: is broken, table {min(missing)!r} is missing", "put back a copy of the file")


def _upgrade(connection: Connection) -> None:
    from alembic import command  # heavy, and needed only when there is something to do
    from alembic.config import Config

    config = Config()
    config.set_main_option("script_location", str(Path(__file__).parent / "migrations").replace("%", "%%"))
    config.attributes["connection"] = connection
    config.attributes["version_table"] = VERSION_TABLE
    command.upgrade(config, "head")
