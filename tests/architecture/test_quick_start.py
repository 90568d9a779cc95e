"""What is loaded when a door opens: counted by what is imported, not by a clock."""

from __future__ import annotations

import ast
import importlib
import json
import subprocess
import sys
from pathlib import Path

import click
import pytest

from pavewright.catalogue._index import PLACES as SUM_PLACES
from pavewright.cli import main
from pavewright.cli._group import PLACES
from pavewright.faces import handed_out

SOURCE = Path(__file__).parents[2] / "src" / "pavewright"
DOORS = sorted(
    path
    for path in SOURCE.rglob("__init__.py")
    if path.parent not in {SOURCE, SOURCE / "cli"} and "migrations" not in path.parts
)


def loaded_by(code: str) -> set[str]:
    """Return the names of all modules that a fresh interpreter has loaded after some code."""
    reported = f"import json, sys\n{code}\nprint(json.dumps(sorted(sys.modules)))"
    done = subprocess.run([sys.executable, "-c", reported], capture_output=True, text=True, check=True)
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


HEAVY = {"numba", "llvmlite", "scipy", "ezdxf", "typst", "xlsxwriter", "jinja2", "starlette", "uvicorn", "sqlalchemy"}
"""What takes long to load and belongs to a few commands only."""


def loaded_by_words(*words: str) -> set[str]:
    """Return what is loaded when the command line has answered these words."""
    return loaded_by(
        f"sys.argv = ['pavewright', *{list(words)!r}]\nfrom pavewright.cli import main\n"
        "try:\n    main()\nexcept SystemExit:\n    pass"
    )


def test_help_loads_no_room_and_nothing_that_they_need():
    loaded = loaded_by_words("--help")
    assert {name for name in loaded if name.startswith("pavewright.")} == {
        "pavewright.cli", "pavewright.cli._group"
    }  # fmt: skip
    assert not (HEAVY | {"numpy", "shapely", "pydantic", "tomllib"}) & loaded


@pytest.mark.parametrize(
    ("words", "rooms"),
    [
        (("fall", "run_mm=3000", "one_in=60"), {"geometry", "levels"}),
        (("prismoidal-volume", "top_m2=1", "middle_m2=2", "bottom_m2=3", "height_m=1"), {"earthworks", "job"}),
        (("pipe-full-bore", "diameter_mm=100", "fall=0.01", "roughness_mm=0.6"), {"water"}),
    ],
    ids=lambda given: given[0] if isinstance(given, tuple) else "",
)
def test_a_sum_loads_its_own_room_and_what_that_counts_with(words, rooms):
    loaded = loaded_by_words("sum", *words)
    own = {name.split(".")[1] for name in loaded if name.startswith("pavewright.") and name.count(".") > 1}
    assert own - {"cli", "desk", "catalogue", "rulebook", "rules", "typed"} <= rooms
    assert not HEAVY & loaded


def test_no_sum_needs_machine_code_a_solver_papers_or_a_server():
    loaded = loaded_by("".join(f"import {module}\n" for module in sorted(set(SUM_PLACES.values()))))
    assert not (HEAVY | {"highspy"}) & loaded


def test_a_plan_loads_nothing_that_only_papers_and_pages_need():
    loaded = loaded_by_words("plan", str(SOURCE / "desk" / "demo.json"), "--quiet")
    assert not ((HEAVY | {"scipy.linalg"}) - {"numba", "llvmlite", "scipy"}) & loaded
    assert not {
        name for name in loaded if name.startswith(("pavewright.drawing.", "pavewright.files.", "pavewright.web"))
    }


def test_the_list_of_commands_says_what_each_says_of_itself():
    context = click.Context(main)
    for name, place in PLACES.items():
        command = main.get_command(context, name)
        assert command.name == name
        alone = click.Command(name, help=place.line)
        assert place.line.endswith(".")
        for room in (20, 60, 400):
            assert alone.get_short_help_str(room) == command.get_short_help_str(room)


def test_the_index_of_sums_is_as_the_rooms_are():
    done = subprocess.run(
        [sys.executable, "tools/make_index.py", "--check"],
        cwd=SOURCE.parents[1],
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stderr


def test_a_sum_that_the_index_does_not_hold_is_found_all_the_same(monkeypatch):
    find = importlib.import_module("pavewright.catalogue._find")
    monkeypatch.setattr(find, "PLACES", {"fall": "pavewright.units"})
    assert find.find("fall").name == "fall"
    assert find.find("prismoidal-volume").name == "prismoidal-volume"
