"""The measures of the house count what they say they count."""

from __future__ import annotations

import importlib.util
import sys
from pathlib import Path

import pytest

TOOL = Path(__file__).parents[2] / "tools" / "metrics.py"

LEVELS = '''
"""Heights."""
import re
MEETS_MM = 150.0
_TRIES = 3
_DPC_MM: float = 150.0
SIGN = re.compile("x")

def falls(rules, spot, fall_mm=20.0, drop_mm=0.0):
    """Docstring is
    not body."""
    if spot.label.startswith("fold "):
        return rules.value("levels.fall_mm")
    if spot.unit == "loads" or spot.kind == "loads":
        return rules.table(f"levels.{spot.kind}")
    return spot.key == "at the wall"
'''


@pytest.fixture
def checkout(tmp_path):
    room = tmp_path / "src" / "pavewright" / "levels"
    room.mkdir(parents=True)
    (room / "_a.py").write_text(LEVELS, "utf-8")
    (room / "_b.py").write_text("MEETS_MM = 150.0\n", "utf-8")
    door = tmp_path / "src" / "pavewright" / "papers"
    door.mkdir()
    (door / "_c.py").write_text('def spoken(text):\n    return text.startswith("a word")\n', "utf-8")
    cases = tmp_path / "tests" / "published"
    cases.mkdir(parents=True)
    (cases / "levels.toml").write_text('[[case]]\nstatus = "S"\n[[case]]\nstatus = "D"\n', "utf-8")
    return tmp_path


def test_measures_count_what_they_say(checkout, monkeypatch):
    found = importlib.util.spec_from_file_location("metrics", TOOL)
    metrics = importlib.util.module_from_spec(found)
    monkeypatch.setitem(sys.modules, "metrics", metrics)  # its records look their module up
    found.loader.exec_module(metrics)
    values = metrics.measure(checkout, static=True).values
    assert values["modules"] == "3"
    assert values["functions"] == "2"
    assert values["body of a function, lines: max"] == "5"
    # a method, a pattern, a unit compared and a sentence compared; a kind compared is a key, and papers may deal in words
    assert values["text dispatches in core rooms"] == "4"
    assert values["look-ups of figures by string"] == "2"
    assert values["functions that take the whole rulebook"] == "1"
    assert values["constants with a unit in core rooms"] == "3"
    assert values["  of these copies of another module's"] == "1"
    assert values["defaults with a unit in core rooms"] == "1"
    assert (values["published cases"], values["  S (printed)"], values["  M (memory)"]) == ("2", "1", "0")
