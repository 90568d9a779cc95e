"""Stores for the tests of this room: a filled one of the present, a filled one of the version before, a small disk."""

from __future__ import annotations

import json
import os
import shutil
import subprocess

import pytest
from alembic import command

from pavewright.store import open_file, open_store
from pavewright.store._open import _config, engine_for

from tests.a_database_server import ended, started


@pytest.fixture(scope="session")
def server():
    """A database server, started for the first test that wants one."""
    running = started()
    yield running
    ended(running)


@pytest.fixture(scope="session")
def template(server):
    """A database with all tables and nothing in it, copied for each test."""
    url = server.new_database()
    open_store(url).close()
    return url.partition("@/")[2].partition("?")[0]


@pytest.fixture
def server_url(server, template):
    """A database of its own on the server."""
    url = server.new_database(template)
    yield url
    server.drop(url)


@pytest.fixture(scope="session")
def empty_file(tmp_path_factory):
    """A closed file with all tables and nothing in it, copied for each test."""
    path = tmp_path_factory.mktemp("empty") / "jobs.sqlite"
    open_file(path).close()
    return path


@pytest.fixture(params=["file", "server"])
def url(request, tmp_path):
    """Where a test keeps its jobs: once in a file, once on a database server."""
    if request.param == "file":
        return f"sqlite:///{shutil.copy(request.getfixturevalue('empty_file'), tmp_path / 'jobs.sqlite')}"
    return request.getfixturevalue("server_url")


@pytest.fixture
def store(url):
    opened = open_store(url)
    yield opened
    opened.close()


@pytest.fixture
def store_file(empty_file, tmp_path):
    """A store in a file, for what there is in a file only."""
    opened = open_file(shutil.copy(empty_file, tmp_path / "jobs.sqlite"))
    yield opened
    opened.close()


@pytest.fixture(scope="session")
def filled_file(tmp_path_factory):
    """A closed store with a job of three revisions, a delivery and a photo: copied by each test that changes it."""
    path = tmp_path_factory.mktemp("filled") / "jobs.sqlite"
    store = open_file(path)
    kept = store.add(json.dumps({"identity": {"title": "Terrace"}, "filler": "x" * 40_000}))
    for rev in (1, 2):
        store.save(kept.id, rev, json.dumps({"identity": {"title": f"Terrace {rev}"}, "filler": "x" * 40_000}))
    store.deliver("d1", kept.id, "{}", lambda text: text + " ", "reading")
    store.add_photo("p1", kept.id, b"image", "gully", None)
    store.close()
    return path


@pytest.fixture
def filled(filled_file, tmp_path):
    return shutil.copy(filled_file, tmp_path / "jobs.sqlite")


@pytest.fixture
def version_1(tmp_path):
    """A filled store as the first version left it."""
    path = tmp_path / "first.sqlite"
    engine = engine_for(f"sqlite:///{path}")
    config = _config()
    with engine.connect().execution_options(write=True) as connection, connection.begin():
        config.attributes["connection"] = connection
        command.upgrade(config, "0001")
    now = "2027-05-04T08:00:00.000+00:00"
    with engine.execution_options(write=True).begin() as connection:
        for job in ("a" * 16, "b" * 16):
            row = (job, 2, f"Job {job[0]}", "job", 0, now, '{"identity": {}}')
            connection.exec_driver_sql("INSERT INTO job VALUES (?, ?, ?, ?, ?, ?, ?, NULL, NULL)", row)
            for rev in (1, 2):
                row = (job, rev, now, "note", '{"identity": {}}')
                connection.exec_driver_sql("INSERT INTO revision VALUES (?, ?, ?, ?, ?)", row)
        connection.exec_driver_sql("INSERT INTO delivery VALUES ('d1', ?, ?, 2, 'body')", ("a" * 16, now))
        connection.exec_driver_sql("INSERT INTO photo VALUES ('p1', ?, ?, 'n', 1.5, 2.5, ?)", ("a" * 16, now, b"image"))
    engine.dispose()
    return path


@pytest.fixture
def small_disk(tmp_path):
    """A folder on a disk of two megabytes of its own; where that may not be mounted the test is left out."""
    folder = tmp_path / "small"
    folder.mkdir()
    mount = shutil.which("mount")
    if os.geteuid() != 0 or mount is None:
        pytest.skip("a small disk can be mounted by root only; a limit on the file stands in for it beside this test")
    done = subprocess.run([mount, "-t", "tmpfs", "-o", "size=2m", "tmpfs", folder], check=False, capture_output=True)
    if done.returncode != 0:
        pytest.skip("no small disk can be mounted here; a limit on the file stands in for it beside this test")
    yield folder
    # also where a failed test still holds a file of it
    subprocess.run([shutil.which("umount"), "--lazy", folder], check=True)
