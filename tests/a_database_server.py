"""A database server of its own for the tests: Debian's package, one server for a run, a database for each test.

It listens on a socket in a folder of its own and nowhere else, and is a child that ends with the run, also with one
that is killed. Where the package is missing the tests that need it skip, loudly; a machine that builds the project (CI)
fails instead.
"""

from __future__ import annotations

import contextlib
import fcntl
import itertools
import os
import pwd
import shutil
import signal
import subprocess
import tempfile
import time
from pathlib import Path
from typing import Any, NoReturn

import pytest
import sqlalchemy as sa

ROLE = "paver"
"""What the program signs in by: a role that owns its databases and sees past nothing."""
_COUNT = itertools.count()
_BEGINNING = "pavewright-tests-"
_SETTINGS = {
    # nothing that the tests keep has to outlive the machine
    "fsync": "off",
    "full_page_writes": "off",
    "autovacuum": "off",
    "max_connections": "100",
    "shared_buffers": "32MB",
    "listen_addresses": "",
}
_PATIENCE_S = 60


def programs() -> Path | None:
    """Return the folder of the server's programs, of the newest version; None where it is not installed."""
    found = sorted(Path("/usr/lib/postgresql").glob("*/bin/initdb"), key=lambda path: int(path.parts[-3]))
    return found[-1].parent if found else None


class Server:
    """A server while it runs."""

    def __init__(self, folder: Path, tools: Path) -> None:
        self.folder, self._tools = folder, tools
        self._as_owner: tuple[str, ...] = ()
        if os.geteuid() == 0:
            owner = pwd.getpwnam("postgres")
            os.chown(folder, owner.pw_uid, owner.pw_gid)
            self._as_owner = ("--reuid", "postgres", "--regid", "postgres", "--clear-groups")
        # whoever finds this file free knows that the run has ended
        self._held = (folder / "held").open("wb")
        fcntl.flock(self._held, fcntl.LOCK_EX)
        self._log = (folder / "log").open("ab")
        words = ("-A", "trust", "--no-sync", "-E", "UTF8", "--locale=C.UTF-8", "--wal-segsize=4", "-U", "postgres")
        if subprocess.run(self._command("initdb", *words, "-D", self.data), check=False, **self._quiet()).returncode:
            self._fail("the database of the tests cannot be made")
        self.rise()
        with self.as_superuser().connect() as connection:
            connection.exec_driver_sql(f"CREATE ROLE {ROLE} LOGIN NOSUPERUSER NOBYPASSRLS CREATEDB")

    @property
    def data(self) -> str:
        return str(self.folder / "data")

    @property
    def process(self) -> int:
        return self._running.pid

    def rise(self) -> None:
        """Start on the data that are there, and wait until it answers."""
        settings = [word for name, value in _SETTINGS.items() for word in ("-c", f"{name}={value}")]
        self._running = subprocess.Popen(
            self._command("postgres", "-D", self.data, "-k", str(self.folder), *settings), **self._quiet()
        )
        self._wait()

    def fall(self) -> None:
        """Kill it with all its processes, as a machine does that loses its power but keeps what its disk took."""
        first = self._running.pid
        rest = Path(f"/proc/{first}/task/{first}/children").read_text().split()
        for each in (first, *map(int, rest)):
            with contextlib.suppress(ProcessLookupError):
                os.kill(each, signal.SIGKILL)
        self._running.wait()
        while any(Path(f"/proc/{each}").exists() for each in rest):
            time.sleep(0.01)

    def _command(self, program: str, *words: str) -> list[str]:
        """Return the words that run a program as its owner; it is told to end at once when the tests do."""
        return ["setpriv", "--pdeathsig", "QUIT", *self._as_owner, str(self._tools / program), *words]

    def _quiet(self) -> dict[str, Any]:
        return {"stdin": subprocess.DEVNULL, "stdout": self._log, "stderr": self._log, "cwd": self.folder}

    def _wait(self) -> None:
        """Wait until the server answers, or say what it wrote when it does not."""
        until = time.monotonic() + _PATIENCE_S
        while self._running.poll() is None and time.monotonic() < until:
            try:
                self.as_superuser().connect().close()
            except sa.exc.OperationalError:
                time.sleep(0.02)
            else:
                return
        self._end()
        self._fail("the database server of the tests does not run")

    def _fail(self, words: str) -> NoReturn:
        self._close()
        pytest.fail(f"{words}:\n{(self.folder / 'log').read_text('utf-8', 'replace')}")

    def _close(self) -> None:
        self._log.close()
        self._held.close()

    def stop(self) -> None:
        """End the server at once, with every connection."""
        self._end()
        self._close()

    def _end(self) -> None:
        self._running.send_signal(signal.SIGQUIT)
        try:
            self._running.wait(timeout=_PATIENCE_S)
        finally:
            self._running.kill()
            self._running.wait()

    def url(self, database: str, role: str = ROLE) -> str:
        return f"postgresql+psycopg://{role}@/{database}?host={self.folder}"

    def as_superuser(self, database: str = "postgres") -> sa.Engine:
        return sa.create_engine(
            self.url(database, "postgres"), isolation_level="AUTOCOMMIT", poolclass=sa.pool.NullPool
        )

    def new_database(self, template: str = "template1") -> str:
        """Make a database of the role and return its address; ``template`` must not be in use."""
        name = f"test_{next(_COUNT)}"
        with self.as_superuser().connect() as connection:
            connection.exec_driver_sql(f"CREATE DATABASE {name} OWNER {ROLE} TEMPLATE {template}")
        if template == "template1":
            with self.as_superuser(name).connect() as connection:
                connection.exec_driver_sql(f"ALTER SCHEMA public OWNER TO {ROLE}")
        return self.url(name)

    def drop(self, url: str) -> None:
        with self.as_superuser().connect() as connection:
            connection.exec_driver_sql(f"DROP DATABASE {sa.make_url(url).database} WITH (FORCE)")


def missing() -> NoReturn:
    """Skip loudly, or fail where the project is built."""
    words = "NO DATABASE SERVER: install Debian's package postgresql to run the tests on it"
    if os.environ.get("CI"):
        pytest.fail(words)
    pytest.skip(f"*** {words} ***")


def started() -> Server:
    """Start a server in a folder of its own; whoever starts it calls ``ended``."""
    tools = programs()
    if tools is None:
        missing()
    sweep()
    # not a folder of the test run: the user of the server may not enter those
    return Server(Path(tempfile.mkdtemp(prefix=_BEGINNING)), tools)


def ended(server: Server) -> None:
    """Stop a server and leave nothing of it."""
    server.stop()
    for _ in range(20):  # its last files go a moment after it
        shutil.rmtree(server.folder, ignore_errors=True)
        if not server.folder.exists():
            return
        time.sleep(0.05)


def sweep() -> None:
    """Delete what killed runs left behind: their servers ended with them, their folders did not."""
    for folder in Path(tempfile.gettempdir()).glob(f"{_BEGINNING}*"):
        try:
            if time.time() - folder.stat().st_mtime < _PATIENCE_S:
                continue
            with (folder / "held").open("r") as held:
                fcntl.flock(held, fcntl.LOCK_EX | fcntl.LOCK_NB)
                shutil.rmtree(folder, ignore_errors=True)
        except OSError:  # somebody's who still runs, or was made just now
            continue
