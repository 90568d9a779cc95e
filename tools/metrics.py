"""Print the measures of the house, of one checkout or of several side by side.

    python tools/metrics.py                     this checkout
    python tools/metrics.py BEFORE AFTER        two folders with a checkout each (git worktree makes one)
    python tools/metrics.py --static            without those that start the program
    python tools/metrics.py --list              where each text dispatch and each copied constant stands, too

What is read is read from the text of the source, by the rules below, so that any revision can be measured. Times are
seconds of processor (user and system), the least of three; a second line gives them as multiples of what importing
numpy, shapely, pydantic and click takes on the same machine in the same run.
"""

from __future__ import annotations

import argparse
import ast
import json
import os
import re
import resource
import subprocess
import sys
import tomllib
from collections import Counter
from dataclasses import dataclass, field
from pathlib import Path

CORE = (
    "geometry", "findings", "rules", "sums", "job", "survey", "flow", "levels", "laying", "buildup", "earthworks",
    "water", "quantities", "cost", "programme", "method", "setting_out", "as_laid", "hold_points", "pipeline",
)  # fmt: skip
"""Rooms and modules that hold the trade; the doors below them may deal in words."""
TEXT_METHODS = {"startswith", "endswith", "removeprefix", "removesuffix"}
WORDY = {"expression", "label", "message", "note", "title", "unit", "words"}
"""Attributes that hold words for people: comparing one with a text is reading words."""
UNITS = r"(MM|M|M2|M3|MM2|MM3|KG|KG_M3|T|H|HOURS|MIN|MINUTES|S|DAYS|DEG|PERCENT|L|L_S|KN|KPA|MM_PER_H|M_PER_S2|MINOR)"
UNIT_NAME = re.compile(rf"^_?[A-Z0-9_]*_{UNITS}$")
FIGURE_KEY = re.compile(r"^[a-z_]+\.[a-z0-9_]*")
FIGURE_METHODS = {"value", "figure", "table", "has"}
BASE = "import numpy, shapely, pydantic, click"


@dataclass
class Measures:
    """What was measured, in order, and where it stands."""

    values: dict[str, str] = field(default_factory=dict)
    places: dict[str, list[str]] = field(default_factory=dict)


def main() -> int:
    """Measure each folder and print the table."""
    words = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    words.add_argument("folders", nargs="*", type=Path, default=[Path(__file__).resolve().parents[1]])
    words.add_argument("--static", action="store_true", help="nothing that starts the program")
    words.add_argument("--list", action="store_true", dest="listed", help="where dispatches and copies stand")
    asked = words.parse_args()
    found = [measure(folder.resolve(), static=asked.static) for folder in asked.folders]
    names = list(dict.fromkeys(name for each in found for name in each.values))
    wide = max(len(name) for name in names)
    print(" " * wide, *(f"{folder.resolve().name:>28.28}" for folder in asked.folders))
    for name in names:
        print(f"{name:{wide}}", *(f"{each.values.get(name, '–'):>28}" for each in found))
    if asked.listed:
        for folder, each in zip(asked.folders, found, strict=True):
            for title, places in each.places.items():
                print(f"\n{folder.resolve().name}: {title}", *places, sep="\n  ")
    return 0


def measure(root: Path, *, static: bool) -> Measures:
    """Return every measure of one checkout."""
    found = Measures()
    source = root / "src" / "pavewright"
    trees = {
        path.relative_to(source).as_posix(): ast.parse(path.read_text("utf-8")) for path in sorted(source.rglob("*.py"))
    }
    core = {name: tree for name, tree in trees.items() if name.removesuffix(".py").split("/")[0] in CORE}
    _sizes(found, source, trees)
    _words_read(found, core)
    _figures(found, core)
    _constants(found, core)
    _cases(found, root)
    if not static:
        _sums(found, root)
        _engine(found, root)
        _times(found, root)
    return found


def _sizes(found: Measures, source: Path, trees: dict[str, ast.Module]) -> None:
    lines = {path: len(path.read_text("utf-8").splitlines()) for path in source.rglob("*.py")}
    found.values["modules"] = str(len(lines))
    found.values["lines"] = str(sum(lines.values()))
    found.values["longest module, lines"] = str(max(lines.values()))
    bodies = sorted(
        (_body_lines(node), f"{name}:{node.name}")
        for name, tree in trees.items()
        for node in ast.walk(tree)
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef)
    )
    found.values["functions"] = str(len(bodies))
    found.values["body of a function, lines: p95"] = str(bodies[int(0.95 * (len(bodies) - 1))][0])
    found.values["body of a function, lines: max"] = str(bodies[-1][0])
    found.values["bodies over 40 lines"] = str(sum(lines > 40 for lines, _ in bodies))
    found.places["bodies over 40 lines"] = [f"{where} {lines}" for lines, where in bodies if lines > 40]
    scripts = [
        path
        for path in (source / "web" / "static").rglob("*.js")
        if "vendor" not in path.as_posix() and "three" not in path.name
    ]
    found.values["JavaScript modules"] = str(len(scripts))
    found.values["JavaScript lines"] = str(sum(len(path.read_text("utf-8").splitlines()) for path in scripts))


def _body_lines(node: ast.FunctionDef | ast.AsyncFunctionDef) -> int:
    """Return the lines of a body without its docstring."""
    body = node.body[1:] if ast.get_docstring(node) is not None else node.body
    return (body[-1].end_lineno or 0) - body[0].lineno + 1 if body else 0


def _words_read(found: Measures, core: dict[str, ast.Module]) -> None:
    """Count where words are read to decide: text methods, patterns, and words for people compared with a text."""
    kinds: dict[str, list[str]] = {"text methods": [], "patterns": [], "words compared": []}
    for name, tree in core.items():
        for node in ast.walk(tree):
            kind = _reads_words(node)
            if kind:
                kinds[kind].append(f"{name}:{node.lineno} {ast.unparse(node)[:90]}")  # type: ignore[attr-defined]
    found.values["text dispatches in core rooms"] = str(sum(len(places) for places in kinds.values()))
    for kind, places in kinds.items():
        found.values[f"  of these {kind}"] = str(len(places))
        found.places[f"text dispatches, {kind}"] = places


def _reads_words(node: ast.AST) -> str:
    """Return how a node reads words; empty where it does not."""
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
        if node.func.attr in TEXT_METHODS:
            return "text methods"
        if isinstance(node.func.value, ast.Name) and node.func.value.id == "re" and node.func.attr != "escape":
            return "patterns"
    if isinstance(node, ast.Compare) and len(node.ops) == 1:
        left, right = node.left, node.comparators[0]
        texts = [side.value for side in (left, right) if isinstance(side, ast.Constant) and isinstance(side.value, str)]
        if isinstance(right, ast.Set | ast.Tuple | ast.List):
            texts += [
                cell.value for cell in right.elts if isinstance(cell, ast.Constant) and isinstance(cell.value, str)
            ]
        wordy = any(isinstance(side, ast.Attribute) and side.attr in WORDY for side in (left, right))
        if texts and (wordy or any(" " in text.strip() or text != text.strip() for text in texts)):
            return "words compared"
    return ""


def _figures(found: Measures, core: dict[str, ast.Module]) -> None:
    """Count where a figure of the rulebook is looked up by its key, and what takes the whole rulebook."""
    looked_up, taking = 0, 0
    for tree in core.values():
        for node in ast.walk(tree):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr in FIGURE_METHODS:
                looked_up += bool(node.args) and _is_key(node.args[0])
            if isinstance(node, ast.FunctionDef):
                taking += any(each.arg == "rules" for each in (*node.args.args, *node.args.kwonlyargs))
    found.values["look-ups of figures by string"] = str(looked_up)
    found.values["functions that take the whole rulebook"] = str(taking)


def _is_key(node: ast.expr) -> bool:
    if isinstance(node, ast.JoinedStr):
        node = node.values[0] if node.values else node
    return isinstance(node, ast.Constant) and isinstance(node.value, str) and bool(FIGURE_KEY.match(node.value))


def _constants(found: Measures, core: dict[str, ast.Module]) -> None:
    """Count constants whose name ends in a unit, and those of the same value and unit in more than one module."""
    named: list[tuple[str, float, str]] = []
    defaults = 0
    for name, tree in core.items():
        for node in tree.body:
            targets = (
                node.targets
                if isinstance(node, ast.Assign)
                else [node.target]
                if isinstance(node, ast.AnnAssign)
                else []
            )
            value = _number(getattr(node, "value", None))
            named += [
                (target.id, value, f"{name}:{node.lineno}")
                for target in targets
                if value is not None and isinstance(target, ast.Name) and UNIT_NAME.match(target.id)
            ]
        defaults += sum(_unit_defaults(node) for node in ast.walk(tree))
    meanings = Counter((constant.strip("_"), value) for constant, value, _ in named)
    copied = {key for key, count in meanings.items() if count > 1}
    found.values["constants with a unit in core rooms"] = str(len(named))
    found.values["  of these copies of another module's"] = str(sum(meanings[key] - 1 for key in copied))
    found.values["defaults with a unit in core rooms"] = str(defaults)
    found.places["constants with a unit"] = [f"{where} {constant} = {value:g}" for constant, value, where in named]
    found.places["copied constants"] = [
        f"{constant} = {value:g}  {where}"
        for constant, value, where in sorted(named)
        if (constant.strip("_"), value) in copied
    ]


def _number(node: ast.expr | None) -> float | None:
    if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub):
        inner = _number(node.operand)
        return None if inner is None else -inner
    if isinstance(node, ast.Constant) and isinstance(node.value, int | float) and not isinstance(node.value, bool):
        return float(node.value)
    return None


def _unit_defaults(node: ast.AST) -> int:
    """Return how many inputs of a function have a number with a unit where none is given; zero is no engineering."""
    if not isinstance(node, ast.FunctionDef):
        return 0
    inputs = node.args.args[len(node.args.args) - len(node.args.defaults) :]
    pairs = (
        *zip(inputs, node.args.defaults, strict=True),
        *zip(node.args.kwonlyargs, node.args.kw_defaults, strict=True),
    )
    return sum(bool(UNIT_NAME.match(name.arg.upper())) and bool(_number(value)) for name, value in pairs)


def _cases(found: Measures, root: Path) -> None:
    """Count published cases by letter."""
    letters: Counter[str] = Counter()
    for path in sorted((root / "tests" / "published").glob("*.toml")):
        for case in tomllib.loads(path.read_text("utf-8")).get("case", []):
            letters[case["status"]] += 1
    found.values["published cases"] = str(sum(letters.values()))
    for letter, words in (("S", "printed"), ("D", "worked out by us"), ("C", "common practice"), ("M", "memory")):
        found.values[f"  {letter} ({words})"] = str(letters[letter])


_COUNT_SUMS = """
import json, pathlib, tomllib
from pavewright.catalogue import SUMS
documents = [tomllib.loads(path.read_text("utf-8")) for path in sorted(pathlib.Path("tests/published").glob("*.toml"))]
printed = {case["sum"] for document in documents for case in document.get("case", []) if case["status"] == "S"}
told = {"sums": len(SUMS), "  with a case marked S": len({entry.name for entry in SUMS} & printed)}
try:
    from pavewright import rulebook
    from pavewright.catalogue import case_records, proofs
    register = rulebook.sources()
    records = [record for document in documents for record in case_records(document, register)]
    told["  with a printed case that can be looked up"] = sum(bool(each.printed) for each in proofs(records, SUMS))
except ImportError:
    pass
print(json.dumps(told))
"""


def _sums(found: Measures, root: Path) -> None:
    done = _python(root, _COUNT_SUMS)
    found.values |= {name: str(value) for name, value in json.loads(done.splitlines()[-1]).items()}


_COUNT_ENGINE = """
import json, pathlib, sys, tomllib
from pavewright.catalogue import SUMS, verify_cases
from pavewright.desk import make_plan
home = str(pathlib.Path("src/pavewright").resolve())
def watched(work):
    codes = set()
    def note(frame, event, _argument):
        if event == "call":
            codes.add(frame.f_code)
    sys.setprofile(note)
    try:
        work()
    finally:
        sys.setprofile(None)
    return {(code.co_filename, code.co_qualname) for code in codes if code.co_filename.startswith(home)
            and code.co_consts and isinstance(code.co_consts[0], str) and "Source:" in code.co_consts[0]}
def plans():
    for path in sorted(pathlib.Path("examples").glob("*.json")):
        make_plan(path.read_bytes())
def cases():
    for path in sorted(pathlib.Path("tests/published").glob("*.toml")):
        document = tomllib.loads(path.read_text("utf-8"))
        try:
            from pavewright import rulebook
            verify_cases(document, rulebook.sources())
        except (AttributeError, TypeError):
            verify_cases(document)
planned, proved = watched(plans), watched(cases)
told = {"sourced functions that plans of the examples run": len(planned)}
print(json.dumps(told | {"  of these run by no published case": len(planned - proved)}))
"""


def _engine(found: Measures, root: Path) -> None:
    """Count functions with a source that the plans run, and those of them that no published case runs."""
    done = _python(root, _COUNT_ENGINE)
    found.values |= {name: str(value) for name, value in json.loads(done.splitlines()[-1]).items()}


def _times(found: Measures, root: Path) -> None:
    """Take processor time of the quick commands, of a plan and of collecting the tests, caches kept."""
    door = "import sys; sys.argv = ['pavewright', *{words!r}]; from pavewright.cli import main; main()"
    asked = {
        "--help": door.format(words=["--help"]),
        "sum": door.format(words=["sum", "fall", "run_mm=3000", "one_in=60"]),
        "plan of the demo": door.format(words=["plan", "src/pavewright/desk/demo.json", "--quiet"]),
    }
    base = min(_seconds(root, BASE) for _ in range(3))
    found.values["importing numpy, shapely, pydantic, click, s"] = f"{base:.2f}"
    for name, code in asked.items():
        _seconds(root, code)
        took = min(_seconds(root, code) for _ in range(3))
        found.values[f"{name}, s"] = f"{took:.2f}"
        found.values[f"  {name}, as a multiple of that import"] = f"{took / base:.1f}"
    collect = "import sys, pytest; sys.exit(pytest.main(['--collect-only', '-q', '-p', 'no:cacheprovider']))"
    took = _seconds(root, collect)
    found.values["collecting the tests, s"] = f"{took:.1f}"
    found.values["  collecting, as a multiple of that import"] = f"{took / base:.1f}"


def _surroundings(root: Path) -> dict[str, str]:
    return os.environ | {"PYTHONPATH": str(root / "src")}


def _python(root: Path, code: str) -> str:
    done = subprocess.run(
        [sys.executable, "-c", code], cwd=root, env=_surroundings(root), capture_output=True, text=True, check=True
    )
    return done.stdout


def _seconds(root: Path, code: str) -> float:
    """Return the processor seconds of running some code in a fresh interpreter."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run([sys.executable, "-c", code], cwd=root, env=_surroundings(root), capture_output=True, check=False)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


if __name__ == "__main__":
    sys.exit(main())
