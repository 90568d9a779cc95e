"""The child that draws the papers is held to limits, and leaves no file behind."""

from __future__ import annotations

import tempfile
from pathlib import Path

import pytest

from pavewright import rulebook
from pavewright.papers import PaperInput
from pavewright.papers._compile import PaperError, PapersTooLargeError, to_pdf
from pavewright.papers._document import page_data
from pavewright.papers._pack import cost_sheet


@pytest.fixture(scope="module")
def document(made_plan):
    made = made_plan("demo")
    rules = rulebook.load(made.edition)
    return {"cost-sheet.pdf": page_data(made, cost_sheet(PaperInput(made, rules)))}


def test_papers_that_take_too_much_memory_are_refused_in_words(document):
    with pytest.raises(PapersTooLargeError, match="split the job"):
        to_pdf(document, memory_bytes=20_000_000, seconds=20)


def test_what_cannot_be_drawn_is_a_bug_and_not_too_large():
    with pytest.raises(PaperError):
        to_pdf({"broken.pdf": "{}"})


def test_drawing_makes_no_file(document, tmp_path, monkeypatch):
    monkeypatch.setattr(tempfile, "tempdir", None)
    monkeypatch.setenv("TMPDIR", str(tmp_path / "missing"))
    assert to_pdf(document)["cost-sheet.pdf"].startswith(b"%PDF")
    assert not Path(tmp_path / "missing").exists()
