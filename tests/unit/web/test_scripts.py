"""The scripts of the pages: their types and questions are made from the program, and node runs them against its answers."""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[3]
STATIC = ROOT / "src" / "pavewright" / "web" / "static"
SCRIPTS = [path for path in sorted(STATIC.rglob("*.js")) if "vendor" not in path.parts]
sys.path.insert(0, str(ROOT / "tools"))
import make_types  # noqa: E402
import make_vectors  # noqa: E402
import make_walk_questions  # noqa: E402

from pavewright.survey import WALK_QUESTIONS  # noqa: E402

WIDE = 120
PLAN = json.loads((ROOT / "package.json").read_text("utf-8"))


@pytest.mark.parametrize("name", ["document.d.ts", "job.d.ts", "names.d.ts", "plan.d.ts"])
def test_the_types_are_those_of_the_program(name):
    assert (STATIC / "types" / name).read_text("utf-8") == make_types.pages()[name], "run tools/make_types.py"


def test_the_answers_that_the_scripts_are_held_to_are_those_of_the_program():
    assert make_vectors.PATH.read_text("utf-8") == make_vectors.vectors(), "run tools/make_vectors.py"


def test_the_scripts_answer_as_the_program_does():
    node = shutil.which("node")
    if node is None:
        words = "no node: the scripts of the pages are not run"
        if os.environ.get("CI"):
            pytest.fail(words)
        pytest.skip(words)
    tests = sorted(str(path) for path in (ROOT / "tests" / "js").glob("*.test.js"))
    done = subprocess.run([node, "--test", *tests], cwd=ROOT, capture_output=True, text=True, timeout=120, check=False)
    assert done.returncode == 0, done.stdout[-3000:]


LONG = {
    "job/plan/edit.js": 520,
    "job/stages/from-file.js": 370,
    "job/look/cuts.js": 350,
    "job/look/section.js": 340,
    "jobs/page.js": 330,
    "job/page.js": 325,
    "job/plan/layers-site.js": 312,
    "job/plan/view.js": 312,
    "job/look/solid.js": 308,
}
"""Scripts that are still longer than 300 lines; none may grow."""


@pytest.mark.parametrize("script", SCRIPTS, ids=lambda path: str(path.relative_to(STATIC)))
def test_a_script_is_no_longer_than_can_be_read(script):
    name = script.relative_to(STATIC).as_posix()
    assert len(script.read_text("utf-8").splitlines()) <= LONG.get(name, 300), "split this script"


@pytest.mark.parametrize("script", SCRIPTS, ids=lambda path: str(path.relative_to(STATIC)))
def test_no_line_of_a_script_is_longer_than_others(script):
    lines = script.read_text("utf-8").splitlines()
    assert [number for number, line in enumerate(lines, start=1) if len(line) > WIDE] == []
    assert lines[0] == "// @ts-check"


def test_the_packages_that_check_scripts_are_locked_and_name_no_registry():
    locked = (ROOT / "package-lock.json").read_text("utf-8")
    assert '"resolved"' not in locked
    for name, version in PLAN["devDependencies"].items():
        assert re.fullmatch(r"\d+\.\d+\.\d+", version), name
        assert json.loads(locked)["packages"][f"node_modules/{name}"]["version"] == version
    assert "dependencies" not in PLAN


def test_the_questions_of_the_walk_round_are_those_of_the_program():
    assert make_walk_questions.PATH.read_text("utf-8") == make_walk_questions.script(), (
        "run tools/make_walk_questions.py"
    )


def test_no_script_asks_on_the_walk_round_in_words_of_its_own():
    own = [
        path.name
        for path in SCRIPTS
        if path != make_walk_questions.PATH
        for each in WALK_QUESTIONS
        if f'"{each.words}"' in path.read_text("utf-8")
    ]
    assert own == []
