"""Every hostile file is answered in words, by the reader and on the command line."""

from __future__ import annotations

import importlib.util
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

from pavewright.cli import main
from pavewright.files import FileRefusedError, file_told

_SPEC = importlib.util.spec_from_file_location("hostile_corpus", Path(__file__).with_name("corpus.py"))
corpus = importlib.util.module_from_spec(_SPEC)
sys.modules["hostile_corpus"] = corpus
_SPEC.loader.exec_module(corpus)
FILES = corpus.all_files()


@pytest.mark.parametrize("hostile", FILES, ids=lambda each: each.name)
def test_it_is_taken_whole_or_refused_in_words(hostile):
    try:
        found = file_told(hostile.content, hostile.asked)
    except FileRefusedError as refused:
        assert str(refused).endswith((".", ".)")) and "Traceback" not in str(refused)
        if hostile.refused is not None:
            assert hostile.refused in str(refused)
        return
    assert hostile.refused is None, f"{hostile.name} was taken"
    assert found["points"] or found.get("layers")


@pytest.mark.parametrize("kind", list(corpus.ENDINGS))
def test_the_command_line_answers_in_words(kind, tmp_path):
    runner = CliRunner()
    some = [each for each in FILES if each.asked.get("kind") == kind][::4]
    assert some
    for hostile in some:
        file = tmp_path / f"stranger{corpus.ENDINGS[kind]}"
        file.write_bytes(hostile.content)
        words = ["points", str(file), "--unit", "m", "--order", "name,east,north,level"]
        answer = runner.invoke(
            main,
            [
                *words,
                *(
                    part
                    for each in hostile.asked.get("layers", [])
                    if isinstance(each, str)
                    for part in ("--layer", each)
                ),
            ],
        )
        assert answer.exit_code in {0, 2}, (hostile.name, answer.output)
        assert "fault of the program" not in answer.output
