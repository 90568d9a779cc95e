"""What is loaded when a door opens: counted by what is imported, not by a clock."""

from __future__ import annotations

import ast
import importlib
import json
import subprocess
import sys
from pathlib import Path

import pytest

from pavewright.faces import handed_out

SOURCE = Path(__file__).parents[2] / "src" / "pavewright"
DOORS = sorted(
    path
    for path in SOURCE.rglob("__init__.py")
    if path.parent not in {SOURCE, SOURCE / "cli"} and "migrations" not in path.parts
)


def loaded_by(code: str) -> set[str]:
    """Return the names of all modules that a fresh interpreter has loaded after some code."""
    told = f"import json, sys\n{code}\nprint(json.dumps(sorted(sys.modules)))"
    done = subprocess.run([sys.executable, "-c", told], capture_output=True, text=True, check=True)
    return set(json.loads(done.stdout.splitlines()[-1]))


def package_of(path: Path) -> str:
    return ".".join(("pavewright", *path.parent.relative_to(SOURCE).parts))


def test_a_room_that_is_only_named_loads_nothing_of_itself_nor_of_others():
    names = [package_of(path) for path in DOORS]
    loaded = loaded_by("\n".join(f"import {name}" for name in names))
    own = {name for name in loaded if name.startswith("pavewright.")}
    assert own == {*names, "pavewright.faces"}
    assert not {"numpy", "shapely", "pydantic", "numba", "ezdxf", "starlette", "sqlalchemy"} & loaded


@pytest.mark.parametrize("path", DOORS, ids=package_of)
def test_a_front_door_hands_out_what_it_lists(path):
    room = importlib.import_module(package_of(path))
    listed = handed_out(path.read_text("utf-8"))
    own = {
        name
        for node in ast.parse(path.read_text("utf-8")).body
        if isinstance(node, ast.AnnAssign)
        for name in [node.target.id]
    }
    assert set(room.__all__) == set(listed) | own
    for name in room.__all__:
        assert getattr(room, name) is not None
    # an inner room of the same name would hide what is handed out
    assert not {inner.name for inner in path.parent.iterdir() if inner.is_dir()} & set(room.__all__)


def test_a_name_that_a_room_does_not_hand_out_is_refused():
    room = importlib.import_module("pavewright.levels")

    with pytest.raises(AttributeError, match=r"module 'pavewright\.levels' has no attribute 'heights'"):
        _ = room.heights
