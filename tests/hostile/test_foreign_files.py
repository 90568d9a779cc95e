"""Every hostile file is answered in words, by the reader and on the command line."""

from __future__ import annotations

import importlib.util
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

from pavewright.cli import main
from pavewright.files import FileRefusedError, file_told


def _beside(name):
    spec = importlib.util.spec_from_file_location(f"hostile_{name}", Path(__file__).with_name(f"{name}.py"))
    module = importlib.util.module_from_spec(spec)
    sys.modules[spec.name] = module
    spec.loader.exec_module(module)
    return module


corpus, reader = _beside("corpus"), _beside("reader")
FILES = corpus.all_files()
APART = [each for each in FILES if each.apart]
TOGETHER = [each for each in FILES if not each.apart]
LONGEST_S = 8.0


@pytest.fixture(scope="module")
def answers():
    """What one child under the limits of one file says of all files that break no reader."""
    reported = reader.answers_of([(each.content, each.asked) for each in TOGETHER])
    return {each.name: answer for each, answer in zip(TOGETHER, reported, strict=True)}


def test_every_name_stands_once_and_there_are_a_hundred():
    assert len({each.name for each in FILES}) == len(FILES) >= 100


@pytest.mark.parametrize("hostile", TOGETHER, ids=lambda each: each.name)
def test_it_is_taken_whole_or_refused_in_words(hostile, answers):
    answer = answers[hostile.name]
    assert "died" not in answer, answer
    assert answer["seconds"] < LONGEST_S
    _judge(hostile, answer)


@pytest.mark.parametrize("hostile", APART, ids=lambda each: each.name)
def test_what_breaks_a_reader_breaks_nothing_else(hostile):
    try:
        found = file_told(hostile.content, hostile.asked)
    except FileRefusedError as refused:
        _judge(hostile, {"refused": str(refused)})
        return
    _judge(hostile, {"taken": bool(found["points"] or found.get("layers"))})


def _judge(hostile, answer):
    if "refused" in answer:
        assert answer["refused"].endswith((".", ".)")) and "Traceback" not in answer["refused"]
        assert (hostile.refused or "") in answer["refused"]
        return
    assert hostile.refused is None, f"{hostile.name} was taken"
    assert answer["taken"]


@pytest.mark.parametrize("kind", list(corpus.ENDINGS))
def test_the_command_line_answers_in_words(kind, tmp_path):
    runner = CliRunner()
    some = [each for each in FILES if each.asked.get("kind") == kind][1::9]
    assert some
    for hostile in some:
        file = tmp_path / f"stranger{corpus.ENDINGS[kind]}"
        file.write_bytes(hostile.content)
        layers = [each for each in hostile.asked.get("layers", []) if isinstance(each, str)]
        words = ["points", str(file), "--unit", "m", "--order", "name,east,north,level"]
        answer = runner.invoke(main, [*words, *(part for each in layers for part in ("--layer", each))])
        assert answer.exit_code in {0, 2}, (hostile.name, answer.output)
        assert "fault of the program" not in answer.output
