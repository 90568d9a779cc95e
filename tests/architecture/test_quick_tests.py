"""The quick run takes the tests of what was changed."""

from __future__ import annotations

import importlib.util
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
ALWAYS = ["tests/architecture", "tests/published"]


@pytest.fixture(scope="module")
def quick():
    found = importlib.util.spec_from_file_location("quick_tests", ROOT / "tools" / "quick_tests.py")
    tool = importlib.util.module_from_spec(found)
    found.loader.exec_module(tool)
    return tool


@pytest.mark.parametrize(
    ("changed", "more"),
    [
        ([], []),
        (["README.md", "tests/conftest.py"], []),
        (["src/pavewright/water/rain/_rain_curve.py", "src/pavewright/water/_drain.py"], ["tests/unit/water", "src/pavewright/water"]),
        (["src/pavewright/rulebook/data/england/levels.toml"], ["tests/unit/rulebook", "tests/unit/levels"]),
        (["src/pavewright/compiled.py"], ["tests/unit/test_compiled.py"]),
        (["src/pavewright/pipeline/_plan.py", "examples/l_terrace.json"], ["tests/pipeline", "tests/unit/examples"]),
        (["tests/unit/cost/test_scope.py", "src/pavewright/cost/_price.py"], ["tests/unit/cost", "src/pavewright/cost"]),
        (["tests/architecture/test_house.py", "tests/unit/cost/test_gone.py"], []),
    ],
)  # fmt: skip
def test_a_change_brings_the_tests_of_its_room(quick, changed, more):
    assert quick.tests_of(changed) == ALWAYS + more


def test_every_room_has_a_folder_of_tests_that_the_quick_run_finds(quick):
    # their tests are those of single sums, of the rulebook and of whole jobs
    without = {"catalogue", "rules", "pipeline"}
    rooms = [path.parent for path in (ROOT / "src" / "pavewright").glob("*/__init__.py")]
    for room in rooms:
        if room.name not in without:
            assert f"tests/unit/{room.name}" in quick.tests_of([f"src/pavewright/{room.name}/_any.py"]), room.name
