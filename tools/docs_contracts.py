"""The page of contracts between rooms, read from the code: what each room hands out, and which way imports run."""

from __future__ import annotations

import ast
import tomllib
from dataclasses import dataclass
from functools import cache
from html import escape
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
        home: The module that makes it.
        name: The name.
        kind: What it is: a verb, a type or a value.
        shown: The name with its signature, as a reader needs it.
        says: The first line of its docstring.
    """

    home: str
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
    single = [part for each in targets for part in (each.elts if isinstance(each, ast.Tuple) else [each])]
    return [each.id for each in single if isinstance(each, ast.Name)]


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
            return Entry(
                module, name, "verb", f"{name}({ast.unparse(node.args)}){gives}", first_line(ast.get_docstring(node))
            )
        if isinstance(node, ast.ClassDef) and node.name == name:
            return Entry(module, name, "type", name, first_line(ast.get_docstring(node)))
        if name in assigned(node):
            after = body[number + 1] if number + 1 < len(body) else None
            said = after.value.value if isinstance(after, ast.Expr) and isinstance(after.value, ast.Constant) else None
            return Entry(module, name, "value", name, first_line(said if isinstance(said, str) else None))
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


def pure_rooms() -> set[str]:
    """Return the rooms that may not touch files, clock, network or chance."""
    contracts = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["tool"]["importlinter"]["contracts"]
    (core,) = (each["source_modules"] for each in contracts if each["type"] == "forbidden")
    return set(core)


BOX_MM, ROW_MM, HIGH_MM, LEFT_MM, WIDE_MM = 30.0, 7.0, 5.4, 14.0, 190.0
"""Width of a box, distance of rows, height of a box, place of the first, width of the picture. [mm]"""
LEGEND = "The arrow shows which way imports run. Strong frames: the pure core. Thin: doors above, foundations below."
LETTERS = 100
"""So many letters of what a room says of itself have room beside its box."""


def in_short(room: str) -> str:
    """Return what a room says of itself, as far as there is room beside its box."""
    said = first_line(ast.get_docstring(tree_of(room))).split(". ")[0].rstrip(".")
    said = said.split(": ", 1)[-1]
    return said if len(said) <= LETTERS else said[:LETTERS].rsplit(" ", 1)[0].rstrip(",;:") + " …"


def rooms_picture() -> str:
    """Return the rooms as a picture: higher may import lower; the core is drawn strong."""
    order, core = layers(), pure_rooms()
    high = len(order) * ROW_MM + 12.0
    size = f'viewBox="0 0 {WIDE_MM:g} {high:g}" width="{WIDE_MM:g}mm" height="{high:g}mm"'
    drawn = [
        f'<svg xmlns="http://www.w3.org/2000/svg" {size} font-family="sans-serif" font-size="3.2" role="img">',
        "<title>Rooms of pavewright: what stands higher may import what stands lower</title>",
        f'<rect width="{WIDE_MM:g}" height="{high:g}" fill="#fff"/>',
        f'<path d="M6 3V{high - 9.0:g}m-1.6 -3l1.6 3l1.6 -3" fill="none" stroke="#333" stroke-width=".4"/>',
        f'<text x="{LEFT_MM:g}" y="{high - 4.0:g}" fill="#333" font-size="2.9">{LEGEND}</text>',
    ]
    for row, line in enumerate(order):
        top = 3.0 + row * ROW_MM
        for place, room in enumerate(sorted(line)):
            pen = ".7" if room in core else ".25"
            x = LEFT_MM + place * (BOX_MM + 2.0)
            box = f'x="{x:g}" y="{top:g}" width="{BOX_MM:g}" height="{HIGH_MM:g}" rx="1"'
            name = room.removeprefix("pavewright.")
            drawn.append(f'<rect {box} fill="#f6f4ef" stroke="#333" stroke-width="{pen}"/>')
            middle = f'x="{x + BOX_MM / 2.0:g}" y="{top + 3.8:g}" text-anchor="middle"'
            drawn.append(f'<text {middle} fill="#111">{name}</text>')
        if len(line) == 1:
            beside = f'x="{LEFT_MM + BOX_MM + 3.0:g}" y="{top + 3.8:g}"'
            drawn.append(f'<text {beside} fill="#444" font-size="2.9">{escape(in_short(line[0]))}</text>')
    return "\n".join([*drawn, "</svg>\n"])


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
