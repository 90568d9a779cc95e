"""Write the index of sums: in which module each stands, so that one is found without loading all rooms.

python tools/make_index.py            write src/pavewright/catalogue/_index.py
python tools/make_index.py --check    say whether it is as it would be written; exit 1 where it is not
"""

from __future__ import annotations

import sys
from pathlib import Path

from pavewright.catalogue import SUMS
from pavewright.sums import Sum

INDEX = Path(__file__).parents[1] / "src" / "pavewright" / "catalogue" / "_index.py"


def places() -> dict[str, str]:
    """Return the module of each sum: of those that hold it, the one that holds the fewest."""
    every = SUMS  # from here on every room is loaded
    held: dict[str, list[tuple[int, str]]] = {}
    for module, loaded in sorted(sys.modules.items()):
        own = module.startswith("pavewright.") and not module.startswith("pavewright.catalogue.")
        if not own or hasattr(loaded, "__path__"):
            continue
        rows = [value if isinstance(value, tuple) else (value,) for value in vars(loaded).values()]
        names = {entry.name for row in rows for entry in row if isinstance(entry, Sum)}
        for name in names:
            held.setdefault(name, []).append((len(names), module))
    return {entry.name: min(held[entry.name])[1] for entry in every}


def text() -> str:
    """Return the index as it is to be written."""
    lines = "".join(f'    "{name}": "{module}",\n' for name, module in places().items())
    return (
        '"""In which module each sum stands; written by tools/make_index.py, not by hand."""\n\n'
        f"PLACES = {{\n{lines}}}\n"
    )


def main() -> int:
    """Write the index, or say whether it is as it would be written."""
    wanted = text()
    if "--check" not in sys.argv[1:]:
        INDEX.write_text(wanted, "utf-8")
        return 0
    if INDEX.is_file() and INDEX.read_text("utf-8") == wanted:
        return 0
    print("The index of sums is not as the rooms are: run python tools/make_index.py", file=sys.stderr)
    return 1


if __name__ == "__main__":
    sys.exit(main())
