"""A copy of the program for each test, into which the steps of docs/adding.md are put."""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PAGE = ROOT / "docs" / "adding.md"
STEP = re.compile(
    r"^(?:New file|In) `(?P<path>[^`\n]+)`(?:, (?P<side>after|before) `(?P<line>[^\n]+?)`)?:\n\n```\w+\n(?P<text>.*?)^```$",
    re.MULTILINE | re.DOTALL,
)
HEAVY = ("papers/fonts", "web/static/vendor")


def steps_of(heading):
    """The steps under one heading of the page."""
    parts = re.split(r"^## (.+)$", PAGE.read_text("utf-8"), flags=re.MULTILINE)
    return list(STEP.finditer(dict(zip(parts[1::2], parts[2::2], strict=True))[heading]))


class Copy:
    """The program in a folder of its own."""

    def __init__(self, place):
        self.place = place
        home = ROOT / "src" / "pavewright"
        shutil.copytree(home, place / "src" / "pavewright", ignore=lambda folder, _: self._left_out(home, folder))
        for name in HEAVY:
            (place / "src" / "pavewright" / name).symlink_to(home / name)

    @staticmethod
    def _left_out(home, folder):
        return {Path(name).name for name in HEAVY if Path(folder) == (home / name).parent}

    def add(self, heading):
        """Put in what the page says under a heading; return the files that were touched."""
        touched = []
        for step in steps_of(heading):
            path = self.place / step["path"]
            if step["line"] is None:
                assert not path.exists(), f"{path} is not new"
                path.parent.mkdir(parents=True, exist_ok=True)
                path.write_text(step["text"], "utf-8")
            else:
                lines = path.read_text("utf-8").split("\n")
                assert lines.count(step["line"]) == 1, f"{step['line']!r} stands {lines.count(step['line'])} times"
                at = lines.index(step["line"]) + (step["side"] == "after")
                path.write_text(
                    "\n".join(
                        [
                            *lines[:at],
                            *step["text"].rstrip("\n").split("\n"),
                            *([""] if step["side"] == "before" else []),
                            *lines[at:],
                        ]
                    ),
                    "utf-8",
                )
            touched.append(step["path"])
        return touched

    @property
    def surroundings(self):
        return os.environ | {"PYTHONPATH": str(self.place / "src"), "PYTHONDONTWRITEBYTECODE": "1"}

    def run(self, *words, codes=(0,)):
        """Run the command line of the copy and return what it prints."""
        return self.python("-m", "pavewright.cli", *words, codes=codes)

    def ask(self, script):
        """Run a script beside the copy and return the JSON that it prints."""
        return json.loads(self.python("-c", script))

    def python(self, *words, codes=(0,)):
        done = subprocess.run(
            [sys.executable, *map(str, words)], cwd=self.place, env=self.surroundings, capture_output=True, text=True, check=False
        )  # fmt: skip
        assert done.returncode in codes, done.stdout + done.stderr
        return done.stdout

    def job(self, **laying):
        """Write a small job of blocks and return its file."""
        document = json.loads((ROOT / "tests" / "patio.json").read_text("utf-8"))
        document["units"][0] |= {"kind": "block", "length_mm": 200.0, "width_mm": 100.0, "kg_each": 2.6}
        document["areas"][0]["laying"] |= {"joint_mm": 2.0, "bedding": "sand_on_sub_base", **laying}
        (self.place / "job.json").write_text(json.dumps(document), "utf-8")
        return "job.json"


@pytest.fixture
def copy(tmp_path):
    return Copy(tmp_path)
