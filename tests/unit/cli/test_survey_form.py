"""The command of the survey form."""

from __future__ import annotations

from click.testing import CliRunner

from pavewright.cli._survey_form import survey_form_command


def test_the_blank_form_needs_no_job(tmp_path):
    form = tmp_path / "blank.pdf"
    answer = CliRunner().invoke(survey_form_command, ["-o", str(form), "--title", "Next week"])
    assert answer.exit_code == 0, answer.output
    assert form.read_bytes().startswith(b"%PDF")


def test_a_place_that_cannot_be_written_gets_a_sentence(tmp_path):
    answer = CliRunner().invoke(survey_form_command, ["-o", str(tmp_path / "no" / "form.pdf")])
    assert answer.exit_code == 2
    assert "choose another file" in answer.output
