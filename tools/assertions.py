"""List tests that went and tests that assert less than they did, between two checkouts.

python tools/assertions.py OLD NEW       two folders, each with tests/

A test that has another name or stands in another file is found again by what it asserts. What is listed has to be
explained by whoever took it out; an empty list says that nothing was weakened by leaving out.
"""

from __future__ import annotations

import ast
import sys
from collections import Counter
from pathlib import Path

ALIKE = 0.5
"""Part of its assertions by which a test is known again. [-]"""


def asserted(node: ast.AST) -> Counter[str]:
    """Return what a test asserts, as text: assertions, and errors that it expects."""
    found: Counter[str] = Counter()
    for each in ast.walk(node):
        if isinstance(each, ast.Assert):
            found[ast.unparse(each.test)] += 1
        elif isinstance(each, ast.With) and "raises(" in ast.unparse(each.items[0]):
            found[ast.unparse(each.items[0])] += 1
    return found


def tests_in(folder: Path) -> dict[str, Counter[str]]:
    """Return every test of a checkout, by file and name, with what it asserts."""
    found: dict[str, Counter[str]] = {}
    for path in sorted((folder / "tests").rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text("utf-8"))):
            if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef) and node.name.startswith("test_"):
                found[f"{path.relative_to(folder)}::{node.name}"] = asserted(node)
    return found


def again(name: str, asserts: Counter[str], new: dict[str, Counter[str]]) -> str | None:
    """Return where a test stands now; nothing where it went."""
    if name in new:
        return name
    short = name.split("::")[1]
    moved = [each for each in new if each.split("::")[1] == short]
    if moved:
        return moved[0]
    alike = [(sum((asserts & other).values()), each) for each, other in new.items()]
    most, best = max(alike, default=(0, ""))
    return best if most and most >= ALIKE * sum(asserts.values()) else None


def main(words: list[str]) -> int:
    """Print what went and what asserts less."""
    old, new = (tests_in(Path(word)) for word in words)
    before, after = (sum(sum(each.values()) for each in tests.values()) for tests in (old, new))
    print(f"{len(old)} tests with {before} assertions before, {len(new)} with {after} after")
    for name, asserts in old.items():
        now = again(name, asserts, new)
        if now is None:
            print(f"went: {name} ({sum(asserts.values())} assertions)")
        elif sum(new[now].values()) < sum(asserts.values()):
            print(f"less: {name} {sum(asserts.values())} -> {sum(new[now].values())}")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
