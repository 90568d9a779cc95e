"""Every decimal number of the core says its unit: at the end of its name, or in square brackets where it is described.

A number is a field of a class or a parameter of a public function whose annotation holds `float`, also inside a tuple, a
list, an array or a mapping. What the annotation names instead (`Millimetres`) says its unit itself, and what a function
that is handed over takes and returns is described there. Modules named `_sums*` are exempt: each of their inputs is a
`Quantity`, registered with its unit beside the function.
"""

from __future__ import annotations

import ast
import re
from pathlib import Path

import pytest

SOURCES = Path(__file__).parents[2] / "src" / "pavewright"
DOORS = {"cli", "web", "desk", "store"}
"""Rooms that hold no formula: they hand on what the core says."""
CORE = [
    path
    for path in sorted(SOURCES.rglob("*.py"))
    if path.relative_to(SOURCES).parts[0] not in DOORS and not path.name.startswith("_sums")
]

UNIT = r"mm|mm2|mm3|m|m2|m3|yd3|l|kg|t|s|s2|h|min|c|deg|percent|minor|one_in"
WORDS = r"one_in|seconds|minutes|hours|days|years|tonnes|kg"
NAMED = re.compile(rf"(?:.+_)?(?:{WORDS})(?:_each)?|.+_(?:{UNIT})|(?:.+_)?per_\w+")
"""A name that ends with a unit: `run_mm`, `rain_mm_per_h`, `kg_each`, `days`, `cross_one_in`."""
BRACKETS = re.compile(r"\[[^\][]+\]$")


def holds_float(node: ast.expr | None) -> bool:
    """Whether an annotation holds a decimal number, other than in the signature of a function that is handed over."""
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        node = ast.parse(node.value, mode="eval").body
    if isinstance(node, ast.Subscript) and ast.unparse(node.value) == "Callable":
        return False
    if isinstance(node, ast.Call):
        return False
    if isinstance(node, ast.Name | ast.Attribute):
        return ast.unparse(node) in {"float", "np.float64"}
    return node is not None and any(
        holds_float(each) for each in ast.iter_child_nodes(node) if isinstance(each, ast.expr)
    )


def described(docstring: str | None) -> dict[str, str]:
    """The entries of a docstring by the names that they describe."""
    found: dict[str, str] = {}
    name, depth = "", 0
    for line in (docstring or "").splitlines():
        entry = re.match(r"( +)(\w+): (.*)", line)
        indent = len(line) - len(line.lstrip())
        if entry and (not name or indent <= depth):
            name, depth = entry[2], indent
            found[name] = entry[3]
        elif name and indent > depth:
            found[name] += " " + line.strip()
        else:
            name = ""
    return found


def described_beside(value: ast.expr | None) -> str:
    """What a field of the job document says in its own description."""
    words = [each.value for each in getattr(value, "keywords", []) if each.arg == "description"]
    return str(words[0].value) if words and isinstance(words[0], ast.Constant) else ""


def says_unit(name: str, entry: str) -> bool:
    return bool(NAMED.fullmatch(name) or BRACKETS.search(entry.strip()))


def numbers_of_class(node: ast.ClassDef):
    entries = described(ast.get_docstring(node))
    for each in node.body:
        if isinstance(each, ast.AnnAssign) and isinstance(each.target, ast.Name) and holds_float(each.annotation):
            yield each.lineno, each.target.id, described_beside(each.value) or entries.get(each.target.id, "")


def numbers_of_function(node: ast.FunctionDef):
    entries = described(ast.get_docstring(node))
    for each in (*node.args.posonlyargs, *node.args.args, *node.args.kwonlyargs):
        if holds_float(each.annotation):
            yield each.lineno, each.arg, entries.get(each.arg, "")


def without_unit(text: str) -> list[str]:
    """Every number of a module that does not say its unit, by line, owner and name."""
    found = []

    def look(body: list[ast.stmt], *, public: bool = True) -> None:
        for node in body:
            numbers, owner = [], getattr(node, "name", "")
            if isinstance(node, ast.ClassDef):
                numbers = numbers_of_class(node)
                look(node.body, public=public and not node.name.startswith("_"))
            elif isinstance(node, ast.FunctionDef) and public and not node.name.startswith("_"):
                numbers = numbers_of_function(node)
            found.extend(f"{line} {owner}.{name}" for line, name, entry in numbers if not says_unit(name, entry))

    look(ast.parse(text).body)
    return found


@pytest.mark.parametrize("path", CORE, ids=lambda path: path.relative_to(SOURCES).as_posix())
def test_every_number_says_its_unit(path):
    assert without_unit(path.read_text("utf-8")) == []


ROOM = '''
@dataclass(frozen=True)
class Run:
    """One run.

    Attributes:
        length_mm: Its length.
        fall: How it falls, along
            its length. [rise over run]
        spread: How sure its length is.
        ends: Where it ends: both
            ends.
        words: What is said.
        level_at: The level at a place.
    """

    length_mm: float
    fall: float | None
    spread: float
    ends: tuple[float, ...]
    words: str
    level_at: Callable[[XY], float]
    kg_each: Annotated[float, Field(gt=0.0)] = Field(description="Weight of one.")
    pack: Annotated[float, Field(gt=0.0)] = Field(1.0, description="What one pack holds. [unit of the price]")
    holds: Annotated[float, Field(gt=0.0)] = Field(1.0, description="What one pack holds.")

def longer(run: Run, by: "float", share: Mapping[str, float], min: float) -> float:
    """The run made longer.

    Args:
        run: The run.
        by: How much.
        share: By name, the share of each. [-]
    """

def _inner(by: float) -> float: ...
'''


def test_a_number_without_unit_is_seen():
    assert [each.split()[1] for each in without_unit(ROOM)] == [
        "Run.spread",
        "Run.ends",
        "Run.holds",
        "longer.by",
        "longer.min",
    ]
