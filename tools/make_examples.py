#!/usr/bin/env python3
"""Write the example jobs: an invented contractor, invented customers, readings with the errors that readings have.

    python tools/make_examples.py           write examples/*.json and the demo of the package
    python tools/make_examples.py --check   say which of them are stale

Chance is seeded: the same program writes the same files. Prices are invented, and every document says so.
"""

from __future__ import annotations

import json
import sys
from pathlib import Path

from example_circle import circle_court
from example_drive import front_drive
from example_firm import firm_book, left_to_the_book
from example_parts import with_suppliers
from example_path import curved_path
from example_patio import mixed_patio
from example_terms import with_terms
from example_terrace import l_terrace
from example_yard import gully_yard

_QUARRY_CARRIAGE = 4500
"""What the invented quarry takes for a delivery. [minor units]"""
ROOT = Path(__file__).resolve().parent.parent


def files() -> dict[Path, str]:
    """Return every file by its place."""
    made = {
        "l_terrace": with_suppliers(l_terrace(), 0),
        **{
            name: with_suppliers(job, _QUARRY_CARRIAGE)
            for name, job in (
                ("curved_path", curved_path()),
                ("front_drive", front_drive()),
                ("gully_yard", gully_yard()),
                ("mixed_patio", mixed_patio()),
                ("circle_court", circle_court()),
            )
        },
    }
    made = {name: with_terms(name, document) for name, document in made.items()}
    texts = {name: json.dumps(document, indent=1, ensure_ascii=False) + "\n" for name, document in made.items()}
    found = {ROOT / "examples" / f"{name}.json": text for name, text in texts.items()}
    of_the_firm = {"book": firm_book(made["l_terrace"]), "left_to_the_book": left_to_the_book(made["l_terrace"])}
    for name, document in of_the_firm.items():
        text = json.dumps(document, indent=1, ensure_ascii=False) + "\n"
        found[ROOT / "examples" / "firm" / f"{name}.json"] = text
    found[ROOT / "src" / "pavewright" / "desk" / "demo.json"] = texts["l_terrace"]
    return found


def main(words: list[str]) -> int:
    """Write the files, or check them."""
    stale = []
    for path, text in files().items():
        if path.is_file() and path.read_text("utf-8") == text:
            continue
        stale.append(path.relative_to(ROOT).as_posix())
        if "--check" not in words:
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, "utf-8")
    if "--check" in words and stale:
        print(f"Stale: {', '.join(stale)}. Run python tools/make_examples.py.")
        return 1
    print(f"{len(stale)} files written." if "--check" not in words else "examples are fresh")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
