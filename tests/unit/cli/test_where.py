"""Commands keep jobs in a file or on a database server, and say what to do where the one named cannot be used."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import urllib.request
from contextlib import closing

import pytest
from click.testing import CliRunner

from pavewright.cli import main
from pavewright.desk import EMPTY_BOOK
from pavewright.store import open_file, open_installation, open_store

from tests.a_database_server import ended, started


@pytest.fixture(scope="module")
def address():
    running = started()
    yield running.new_database()
    ended(running)


def run(*words, **environment):
    return CliRunner().invoke(main, [*words], env={"PAVEWRIGHT_DATABASE": None} | environment)


def test_the_server_of_the_environment_keeps_what_a_command_keeps(address, tmp_path):
    book = tmp_path / "firm.json"
    book.write_text(json.dumps(json.loads(EMPTY_BOOK) | {"currency": "SEK"}), "utf-8")
    kept = run("firm", "import", str(book), PAVEWRIGHT_DATABASE=address, HOME=str(tmp_path))
    assert kept.exit_code == 0, kept.output
    assert "SEK" in run("firm", "export", PAVEWRIGHT_DATABASE=address, HOME=str(tmp_path)).output
    assert not (tmp_path / ".pavewright").exists()  # nothing went into a file of this machine
    other = run("firm", "show", "--data", str(tmp_path / "other.sqlite"), PAVEWRIGHT_DATABASE=address)
    assert "SEK" not in other.output  # a file that is named comes before the environment


def test_the_copy_of_a_file_is_not_brought_back_on_a_server(tmp_path):
    file = tmp_path / "copy.sqlite"
    open_file(file).close()
    refused = run("restore", str(file), PAVEWRIGHT_DATABASE="postgresql://paver@db.example/paving", HOME=str(tmp_path))
    assert refused.exit_code == 2
    assert "no whole copy" in refused.output


def test_a_server_is_copied_drilled_and_brought_back_into_a_file(address, tmp_path):
    secret, copy, file = tmp_path / "passphrase.txt", tmp_path / "copy.locked", tmp_path / "back.sqlite"
    secret.write_text("four words in a row\n")
    with closing(open_store(address)) as store:
        store.add(json.dumps({"identity": {"title": "Terrace of the server"}}))
    opens = ("--passphrase-file", str(secret))
    made = run("backup", str(copy), "--lock", *opens, PAVEWRIGHT_DATABASE=address)
    assert (made.exit_code, "It is locked" in made.output) == (0, True), made.output
    drilled = run("drill", str(copy), *opens)
    assert (drilled.exit_code, "All came back as it was copied" in drilled.output) == (0, True), drilled.output
    assert "job: 1 of 1 rows" in drilled.output
    wrong = run("drill", str(copy), PAVEWRIGHT_PASSPHRASE="another passphrase")
    assert (wrong.exit_code, "does not open" in wrong.output) == (2, True)
    back = run("restore", str(copy), "--data", str(file), PAVEWRIGHT_PASSPHRASE="four words in a row")
    assert (back.exit_code, "1 job, 1 revision and 0 photos brought back" in back.output) == (0, True), back.output
    assert "Terrace of the server" in run("jobs", "--data", str(file)).output


def test_a_short_passphrase_is_refused_and_one_firm_of_several_is_said(tmp_path):
    data = ("--data", str(tmp_path / "jobs.sqlite"))
    run("firms", "add", "Kerb", *data)
    with closing(open_installation(tmp_path / "jobs.sqlite")) as kept:
        kept.store_of(kept.accounts.firms()[1].id).add("{}")
    short = run("backup", str(tmp_path / "a"), "--lock", *data, PAVEWRIGHT_PASSPHRASE="short")
    assert (short.exit_code, "12 characters" in short.output) == (2, True)
    assert "the first firm" in run("backup", str(tmp_path / "b"), *data).output
    assert "It holds 2 firms." in run("backup", str(tmp_path / "c"), "--whole", *data).output
    refused = run("drill", str(tmp_path / "b"))
    assert (refused.exit_code, "no whole copy" in refused.output) == (2, True)


def test_a_file_and_a_server_at_once_are_refused(tmp_path):
    refused = run("serve", "--data", str(tmp_path / "a.sqlite"), "--database", "postgresql://paver@db.example/paving")
    assert refused.exit_code == 2
    assert "give one of them" in refused.output


def test_an_address_of_nothing_is_refused_in_a_sentence(tmp_path):
    for wrong in ("nonsense", "mysql://a@b/c"):
        refused = run("serve", "--no-browser", "--database", wrong, HOME=str(tmp_path))
        assert refused.exit_code == 2
        assert "postgresql://ROLE@HOST/DATABASE" in refused.output


def test_the_pages_are_served_from_a_database_server(address):
    words = [sys.executable, "-m", "pavewright.cli", "serve", "--port", "0", "--no-browser"]
    surroundings = os.environ | {"PAVEWRIGHT_DATABASE": address}
    with subprocess.Popen(words, stdout=subprocess.PIPE, text=True, env=surroundings) as served:
        try:
            said = served.stdout.readline()
            asked = urllib.request.Request(
                said.split()[0] + "api/jobs",
                json.dumps({"start_from": "demo"}).encode(),
                {"Content-Type": "application/json"},
            )
            with urllib.request.urlopen(asked, timeout=60) as answer:
                made = json.load(answer)["id"]
        finally:
            served.terminate()
    store = open_store(address)
    try:
        assert store.job(made).rev == 1
    finally:
        store.close()


@pytest.mark.parametrize(
    "words",
    [
        ("jobs",),
        ("due",),
        ("calendar", "show"),
        ("replan", "--of", "prices"),
        ("firm", "show"),
        ("firm", "export"),
        ("firms", "list"),
        ("people", "new-password", "flagg"),
        ("record", "Terrace"),
        ("backup",),
    ],
)
def test_a_mistyped_file_is_refused_and_not_made(words, tmp_path):
    mistyped = tmp_path / "jbos.sqlite"
    refused = run(*words, "--data", str(mistyped))
    assert refused.exit_code == 2
    assert "jbos.sqlite" in refused.output
    assert list(tmp_path.iterdir()) == []


def test_a_command_that_makes_a_store_says_so_once(tmp_path):
    words = ("firms", "add", "Kerb", "--data", str(tmp_path / "jobs.sqlite"))
    assert "A new store of jobs is made" in run(*words).output
    assert "A new store" not in run(*words).output
