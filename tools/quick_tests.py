"""Run the tests of what was changed, in a minute and a half for a change in one room.

    python tools/quick_tests.py            what differs from the branch that this one follows
    python tools/quick_tests.py --show     only say what would be run
    python tools/quick_tests.py PATH ...   as if these files had been changed

The rule: the habits of the house and the printed examples, always; of a room that was changed its folder of tests and
its doctests; of a module that stands alone its file of tests; of a file of figures the tests of its room and of the
rulebook; a file of tests that was changed, itself. Rooms above the changed one, tests marked slow and the browser are
left to the whole run.
"""

from __future__ import annotations

import argparse
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[1]
ALWAYS = ("tests/architecture", "tests/published")
LEFT_OUT = "not slow and not browser and not benchmark"


def main() -> int:
    """Choose the tests and run them."""
    words = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    words.add_argument("--show", action="store_true", help="only say what would be run")
    words.add_argument("paths", nargs="*", help="changed files; left out, git is asked")
    asked = words.parse_args()
    changed = asked.paths or changed_files()
    if changed is None:
        print("This is no git checkout: name the files that you changed.", file=sys.stderr)
        return 2
    chosen = tests_of(changed)
    print(f"{len(changed)} changed files; tests: {' '.join(chosen)} (without those marked slow)", flush=True)
    if asked.show:
        return 0
    return subprocess.run(
        [sys.executable, "-m", "pytest", "-q", "-m", LEFT_OUT, *chosen], cwd=ROOT, check=False
    ).returncode


def tests_of(changed: list[str]) -> list[str]:
    """Return the tests to run for changed files, in order; each is a path that there is."""
    found = list(ALWAYS)
    for name in changed:
        parts = Path(name).parts
        if parts[:2] == ("src", "pavewright"):
            found += _of_source(parts[2:])
        elif parts[:1] == ("tests",) and Path(name).name.startswith("test_") and name.endswith(".py"):
            found.append(name)
        elif parts[:1] == ("examples",):
            found.append("tests/unit/examples")
    there = [path for path in dict.fromkeys(found) if (ROOT / path).exists()]
    # a folder holds its files
    return [path for path in there if not any(str(path).startswith(f"{other}/") for other in there)]


def _of_source(parts: tuple[str, ...]) -> list[str]:
    """Return the tests of a file of the program, given its place below the package."""
    if len(parts) == 1:
        alone = parts[0].removesuffix(".py")
        return [f"tests/unit/test_{alone}.py"]
    room = parts[0]
    if room == "pipeline":
        return ["tests/pipeline", "tests/unit/examples"]  # whole jobs are its tests
    if room == "rulebook" and parts[1] == "data":
        return ["tests/unit/rulebook", f"tests/unit/{Path(parts[-1]).stem}"]
    folder = {"catalogue": "test_sums.py", "rules": "rulebook"}.get(room, room)
    return [f"tests/unit/{folder}", f"src/pavewright/{room}"]


def changed_files() -> list[str] | None:
    """Return the files that differ from the branch that this one follows, with those that git does not know yet."""
    upstream = _git("merge-base", "HEAD", "@{upstream}") or ["HEAD"]
    differing, new = _git("diff", "--name-only", upstream[0]), _git("ls-files", "--others", "--exclude-standard")
    return None if differing is None or new is None else sorted({*differing, *new})


def _git(*words: str) -> list[str] | None:
    """Return the lines that git answers; None where it refuses or is not there."""
    try:
        done = subprocess.run(
            ["git", *words],  # noqa: S607 - wherever it stands
            cwd=ROOT,
            capture_output=True,
            text=True,
            check=False,
        )
    except OSError:
        return None
    return done.stdout.splitlines() if done.returncode == 0 else None


if __name__ == "__main__":
    sys.exit(main())
