"""The page of contracts between rooms, read from the code: what each room hands out, and which way imports run."""

from __future__ import annotations

import ast
import tomllib
from dataclasses import dataclass
from functools import cache
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
SOURCE = ROOT / "src"
HEAD = """# Contracts between rooms

What each room takes and hands on, read from the front doors of the code: the names in the `__init__.py` of each room,
with their signatures and the first line of what they say of themselves. A name that stands on no front door belongs to
its room alone. How a rulebook, a case and a key are written stands in [the rulebook, sums and keys](rulebook.md).
"""
DIRECTION = """What stands higher may import what stands lower, never the other way; rooms of one line know nothing of
each other. `lint-imports` holds it."""


@dataclass(frozen=True)
class Entry:
    """A name on a front door.

    Attributes:
        name: The name.
        kind: What it is: a verb, a type or a value.
        shown: The name with its signature, as a reader needs it.
        says: The first line of its docstring.
    """

    name: str
    kind: str
    shown: str
    says: str


def layers() -> list[list[str]]:
    """Return the rooms as the layers of the import linter have them, from the top; rooms of one layer together."""
    contracts = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["tool"]["importlinter"]["contracts"]
    (order,) = (each["layers"] for each in contracts if each["type"] == "layers")
    return [[room.strip(" ()") for room in line.split("|")] for line in order]


def file_of(module: str) -> Path:
    """Return the file of a module or the front door of a room."""
    path = SOURCE.joinpath(*module.split("."))
    return path / "__init__.py" if path.is_dir() else path.with_suffix(".py")


@cache
def tree_of(module: str) -> ast.Module:
    """Return what a module says."""
    return ast.parse(file_of(module).read_text("utf-8"))


def first_line(text: str | None) -> str:
    """Return the first sentence-like line of a docstring; nothing where there is none."""
    return (text or "").strip().split("\n\n")[0].replace("\n", " ").strip()


def statements(module: str) -> list[ast.stmt]:
    """Return the statements of a module, with those that stand for the type checker only."""
    found: list[ast.stmt] = []
    for node in tree_of(module).body:
        checked = isinstance(node, ast.If) and isinstance(node.test, ast.Name) and node.test.id == "TYPE_CHECKING"
        found += node.body if isinstance(node, ast.If) and checked else [node]
    return found


def names_of(module: str) -> list[str]:
    """Return the names that a room hands out: its ``__all__``, or what a single module makes without an underscore."""
    for node in tree_of(module).body:
        if isinstance(node, ast.Assign) and isinstance(node.targets[0], ast.Name) and node.targets[0].id == "__all__":
            return [str(name) for name in ast.literal_eval(node.value)]
    names = []
    for node in tree_of(module).body:
        if isinstance(node, ast.FunctionDef | ast.ClassDef):
            names.append(node.name)
        names += [target for target in assigned(node) if target.isupper() and len(target) > 1]
    return sorted(name for name in names if not name.startswith("_"))


def assigned(node: ast.stmt) -> list[str]:
    """Return the names that a statement gives a value."""
    targets = node.targets if isinstance(node, ast.Assign) else [node.target] if isinstance(node, ast.AnnAssign) else []
    return [each.id for each in targets if isinstance(each, ast.Name)]


def entry(module: str, name: str) -> Entry:
    """Return a name of a room, looked up where it is made.

    Raises:
        LookupError: the room hands out a name that nothing makes.
    """
    body = statements(module)
    for number, node in enumerate(body):
        if isinstance(node, ast.ImportFrom) and node.module and node.module.startswith("pavewright"):
            for alias in node.names:
                if (alias.asname or alias.name) == name:
                    return entry(node.module, alias.name)
        if isinstance(node, ast.FunctionDef) and node.name == name:
            gives = "" if node.returns is None else f" → {ast.unparse(node.returns)}"
            return Entry(name, "verb", f"{name}({ast.unparse(node.args)}){gives}", first_line(ast.get_docstring(node)))
        if isinstance(node, ast.ClassDef) and node.name == name:
            return Entry(name, "type", name, first_line(ast.get_docstring(node)))
        if name in assigned(node):
            after = body[number + 1] if number + 1 < len(body) else None
            said = after.value.value if isinstance(after, ast.Expr) and isinstance(after.value, ast.Constant) else None
            return Entry(name, "value", name, first_line(said if isinstance(said, str) else None))
    message = f"{module} hands out {name}, and nothing makes it"
    raise LookupError(message)


def inner_rooms(module: str) -> list[str]:
    """Return the rooms inside a room."""
    folder = SOURCE.joinpath(*module.split("."))
    if not folder.is_dir():
        return []
    return sorted(f"{module}.{path.name}" for path in folder.iterdir() if (path / "__init__.py").is_file())


def room_part(module: str) -> str:
    """Return the part of the page on one room."""
    said = ast.get_docstring(tree_of(module)) or ""
    parts = [f"\n## {module.removeprefix('pavewright.')}\n\n{said}\n"]
    found = [entry(module, name) for name in names_of(module)]
    for kind, title in (("verb", "Verbs"), ("type", "Types"), ("value", "Values")):
        rows = [f"- `{each.shown}`{': ' * bool(each.says)}{each.says}\n" for each in found if each.kind == kind]
        parts += [f"\n{title}:\n\n", *rows] if rows else []
    inner = [
        f"- `{each.removeprefix('pavewright.')}`: {first_line(ast.get_docstring(tree_of(each)))}\n"
        for each in inner_rooms(module)
    ]
    parts += ["\nInner rooms:\n\n", *inner] if inner else []
    return "".join(parts)


def contracts_page() -> str:
    """Return the whole page, rooms from the bottom up, as they depend on each other."""
    order = layers()
    drawn = "\n".join(" | ".join(room.removeprefix("pavewright.") for room in line) for line in order)
    parts = [
        HEAD,
        f"\n## Which way imports run\n\n{DIRECTION}\n\n```\n{drawn}\n```\n",
    ]
    parts += [room_part(room) for line in reversed(order) for room in sorted(line)]
    return "".join(parts)
