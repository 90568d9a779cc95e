"""The database server of the tests ends with them, and its package starts none of its own."""

from __future__ import annotations

import importlib.util
import os
import shutil
import subprocess
import sys
import time
from pathlib import Path

import pytest

from tests.a_database_server import missing, programs

ROOT = Path(__file__).parents[3]
STARTS_ONE = """
import time
from tests.a_database_server import started
running = started()
print(running.process, running.folder, flush=True)
time.sleep(600)
"""


def test_a_server_ends_with_tests_that_are_killed():
    if programs() is None:
        missing()
    surroundings = os.environ | {"PYTHONPATH": os.pathsep.join([str(ROOT), str(ROOT / "src")])}
    words = [sys.executable, "-c", STARTS_ONE]
    with subprocess.Popen(words, stdout=subprocess.PIPE, text=True, env=surroundings) as tests:
        number, folder = tests.stdout.readline().split()
        assert Path(f"/proc/{number}").exists()
        tests.kill()
    try:
        for _ in range(600):
            if not Path(f"/proc/{number}").exists():
                break
            time.sleep(0.05)
        assert not Path(f"/proc/{number}").exists()
    finally:
        shutil.rmtree(folder, ignore_errors=True)


@pytest.mark.skipif(not hasattr(os, "geteuid"), reason="Debian only")
def test_the_package_is_told_to_make_no_database_and_what_was_said_before_stays(tmp_path, monkeypatch):
    spec = importlib.util.spec_from_file_location("bootstrap_of_tests", ROOT / "bootstrap.py")
    bootstrap = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(bootstrap)
    monkeypatch.setattr(shutil, "which", lambda name: f"/usr/bin/{name}")
    settings = tmp_path / "etc" / "createcluster.conf"
    monkeypatch.setattr(os, "geteuid", lambda: 1000)
    bootstrap.no_database_of_debian(settings)
    assert not settings.exists()
    monkeypatch.setattr(os, "geteuid", lambda: 0)
    bootstrap.no_database_of_debian(settings)
    assert "create_main_cluster = false" in settings.read_text("utf-8").splitlines()
    settings.write_text("of the owner", "utf-8")
    bootstrap.no_database_of_debian(settings)
    assert settings.read_text("utf-8") == "of the owner"
