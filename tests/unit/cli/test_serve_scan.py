"""The program that looks at each file is named on the command line in words, and reaches the server."""

from __future__ import annotations

import click
import pytest
from click.testing import CliRunner

from pavewright.cli._serve import _words_of, serve_command


def test_a_command_is_parted_into_words_and_no_shell_reads_it():
    assert _words_of(None) == _words_of("") == ()
    assert _words_of("scan-file --quiet '/srv/a list'; $(x)") == ("scan-file", "--quiet", "/srv/a list;", "$(x)")


def test_a_quotation_mark_that_is_not_closed_is_refused():
    with pytest.raises(click.UsageError, match="not closed"):
        _words_of("scan-file 'a")


def test_the_server_is_given_the_program(monkeypatch, tmp_path):
    given = {}
    monkeypatch.setattr("pavewright.web.serve", lambda *_args, **named: given.update(named))
    asked = ["--no-browser", "--data", str(tmp_path / "jobs.sqlite"), "--scan-command", "scan-file --quiet"]
    ran = CliRunner().invoke(serve_command, asked)
    assert (ran.exit_code, given["scan"]) == (0, ("scan-file", "--quiet")), ran.output
