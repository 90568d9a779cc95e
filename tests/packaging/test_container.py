"""The file of a container keeps what the page about operating promises; its commands run as nobody. No image is built."""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
import time
import urllib.request
from pathlib import Path

import click
import pytest

from pavewright.cli import main

ROOT = Path(__file__).parents[2]
FILE = ROOT / "deploy" / "Containerfile"
NOBODY = 65_534


def instructions():
    """Each instruction of the file with what stands behind it, in order."""
    text = re.sub(r"\\\n", " ", FILE.read_text("utf-8"))
    lines = [line for line in text.splitlines() if line.strip() and not line.startswith("#")]
    return [tuple(line.split(None, 1)) for line in lines]


def said(name):
    return [value for each, value in instructions() if each == name]


def pinned(path):
    """Version and digests of each package of a lock."""
    text = path.read_text("utf-8").replace("\\\n", " ")
    found = {}
    for line in text.splitlines():
        if match := re.match(r"([A-Za-z0-9._-]+)(?:\[[^\]]*\])?==(\S+)", line):
            found[match[1].lower()] = (match[2], frozenset(re.findall(r"sha256:[0-9a-f]{64}", line)))
    return found


def test_nobody_runs_it_and_one_folder_is_kept():
    assert said("USER") == ["10001:10001"]
    after = [name for name, _ in instructions()]
    # nothing is done as root behind it
    assert "RUN" not in after[after.index("USER") :]
    assert [json.loads(each) for each in said("VOLUME")] == [["/data"]]
    assert "NUMBA_CACHE_DIR=/data/" in said("ENV")[0]


def test_nothing_is_fetched_by_an_address_and_every_package_by_its_digest():
    assert said("ADD") == []
    text = FILE.read_text("utf-8")
    assert not re.search(r"https?:|curl|wget|git clone|apt-get|--index-url", text)
    assert [each for each in said("FROM") if "latest" in each] == []
    assert re.fullmatch(r"BASE=python:3\.11-\S+", said("ARG")[0])
    (installs,) = [each for each in said("RUN") if "pip install" in each]
    for word in ("--require-hashes", "--only-binary :all:", "-r /build/deploy/requirements.lock"):
        assert word in installs
    assert not re.search(r"(?i)password|secret|token|private", text)


def test_its_packages_are_those_of_the_lock_and_no_tools():
    small, whole = pinned(ROOT / "deploy" / "requirements.lock"), pinned(ROOT / "requirements.lock")
    assert len(small) > 40
    assert {name: each for name, each in small.items() if whole.get(name) != each} == {}
    assert all(digests for _, digests in small.values())
    assert {"starlette", "cryptography", "psycopg"} <= set(small)
    assert not {"pytest", "playwright", "sphinx", "mypy", "moto", "flask"} & set(small)


def test_what_is_copied_is_there():
    for line in said("COPY"):
        words = [word for word in line.split() if not word.startswith("--")]
        if "--from=" not in line:
            assert [word for word in words[:-1] if not (ROOT / word).exists()] == []


def test_its_command_is_one_of_the_program_and_it_is_looked_after():
    words = json.loads(said("CMD")[0])
    command = main.get_command(click.Context(main), words[0])
    context = command.make_context(words[0], list(words[1:]))
    assert str(context.params["data"]).startswith("/data/")
    assert context.params["on_network"]
    assert context.params["no_browser"]
    (checked,) = said("HEALTHCHECK")
    assert "health.py" in checked
    assert said("EXPOSE") == [str(context.params["port"])]


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() != 0, reason="only root can become nobody")
def test_its_commands_run_as_nobody_who_can_write_one_folder(tmp_path):
    data = tmp_path / "data"
    data.mkdir(mode=0o700)
    os.chown(data, NOBODY, NOBODY)
    for folder in (tmp_path, *tmp_path.parents):
        if folder != Path(folder.anchor) and not folder.stat().st_mode & 0o001:
            folder.chmod(folder.stat().st_mode | 0o011)
    words = json.loads(said("CMD")[0])
    words = [str(data / "jobs.sqlite") if word.startswith("/data/") else word for word in words]
    kept = {"PATH": os.environ["PATH"], "PYTHONPATH": str(ROOT / "src"), "NUMBA_CACHE_DIR": str(data / "kernels")}
    nobody = {"user": NOBODY, "group": NOBODY, "extra_groups": [], "cwd": data}
    server = subprocess.Popen(
        [sys.executable, "-B", str(ROOT / "deploy" / "pavewright"), *words, "--port", "0"],
        env=kept | {"PYTHONUNBUFFERED": "1"},
        stdout=subprocess.PIPE,
        text=True,
        **nobody,
    )
    try:
        port = next(found[1] for line in server.stdout if (found := re.match(r"http://127\.0\.0\.1:(\d+)/", line)))
        health = [sys.executable, "-B", str(ROOT / "deploy" / "health.py"), port]
        for _ in range(60):
            if (checked := subprocess.run(health, env=kept, check=False, **nobody)).returncode == 0:
                break
            time.sleep(0.5)
        assert checked.returncode == 0
        body = json.dumps({"start_from": "demo", "key": "the-demo"}).encode()
        asked = urllib.request.Request(f"http://127.0.0.1:{port}/api/jobs", body, {"Content-Type": "application/json"})
        with urllib.request.urlopen(asked, timeout=120) as answered:
            assert answered.status == 201
        assert (data / "jobs.sqlite").stat().st_uid == NOBODY
        # nobody can write the program
        spoil = f"open({str(ROOT / 'src' / 'pavewright' / 'spoilt')!r}, 'w')"
        spoilt = subprocess.run([sys.executable, "-c", spoil], env=kept, capture_output=True, check=False, **nobody)
        assert b"PermissionError" in spoilt.stderr
    finally:
        server.terminate()
        server.wait(timeout=60)
        server.stdout.close()
    stopped = subprocess.run(health, env=kept, check=False, **nobody)
    assert stopped.returncode == 1
