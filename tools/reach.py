"""Which sourced formulas a plan runs, and which of them a published case reaches.

    python tools/reach.py             counts and the formulas that a plan runs and no case reaches
    python tools/reach.py --all       also the formulas that no plan runs

A sourced formula is a function whose docstring has a ``Source:``. What runs is seen by running it: all published cases,
and the plans of all examples.
"""

from __future__ import annotations

import ast
import sys
import threading
import tomllib
from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable
    from types import FrameType

ROOT = Path(__file__).resolve().parents[1]
SOURCE = ROOT / "src" / "pavewright"
DOORS = {"cli", "web", "desk", "store", "papers", "drawing", "files", "catalogue", "rulebook"}


def sourced() -> dict[tuple[str, int], str]:
    """Return every function with a source by its file and first line, as ``room.module.function``."""
    found: dict[tuple[str, int], str] = {}
    for path in sorted(SOURCE.rglob("*.py")):
        if path.relative_to(SOURCE).parts[0] in DOORS:
            continue
        module = ".".join(path.relative_to(SOURCE).with_suffix("").parts)
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.FunctionDef) and "Source:" in (ast.get_docstring(node) or ""):
                first = min([node.lineno, *(each.lineno for each in node.decorator_list)])
                found[str(path), first] = f"{module}.{node.name}"
    return found


def run_by(work: Callable[[], object]) -> set[tuple[str, int]]:
    """Return the file and first line of every function of the program that some work runs."""
    ran: set[tuple[str, int]] = set()
    inside = str(SOURCE)

    def watch(frame: FrameType, event: str, _: object) -> None:
        if event == "call" and frame.f_code.co_filename.startswith(inside):
            ran.add((frame.f_code.co_filename, frame.f_code.co_firstlineno))

    threading.setprofile(watch)
    sys.setprofile(watch)
    try:
        work()
    finally:
        sys.setprofile(None)
        threading.setprofile(None)
    return ran


def cases() -> None:
    """Run every published case."""
    from pavewright import rulebook  # noqa: PLC0415 - what is loaded here counts as run by cases only
    from pavewright.catalogue import verify_cases  # noqa: PLC0415 - the same

    for path in sorted((ROOT / "tests" / "published").glob("*.toml")):
        verify_cases(tomllib.loads(path.read_text("utf-8")), rulebook.sources())


def plans() -> None:
    """Plan every example."""
    from pavewright import pipeline, rulebook  # noqa: PLC0415 - the same
    from pavewright.job import load_document, parse  # noqa: PLC0415 - the same

    for path in sorted((ROOT / "examples").glob("*.json")):
        job = parse(load_document(path.read_bytes()))
        pipeline.plan(job, rulebook.load(job.identity.locality))


def unreached() -> tuple[set[str], set[str], set[str]]:
    """Return sourced formulas that a plan runs and a case reaches, that no case reaches, and that no plan runs."""
    known = sourced()
    by_cases, by_plans = run_by(cases), run_by(plans)
    planned = {name for key, name in known.items() if key in by_plans}
    reached = {name for key, name in known.items() if key in by_cases}
    return planned & reached, planned - reached, set(known.values()) - planned


def main(words: list[str]) -> int:
    """Print what is reached."""
    both, missing, idle = unreached()
    print(f"{len(both)} sourced formulas run by plans are reached by a case, {len(missing)} are not")
    print(f"{len(idle)} are run by no plan of the examples")
    for name in sorted(missing):
        print(f"  not reached: {name}")
    if "--all" in words:
        for name in sorted(idle):
            print(f"  no plan: {name}")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
