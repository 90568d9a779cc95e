#!/usr/bin/env python3
"""Write the questions of the walk round for the scripts of the pages, from the one list of the program.

python tools/make_walk_questions.py
"""

from __future__ import annotations

import json
from pathlib import Path

from pavewright.survey import WALK_QUESTIONS

PATH = Path(__file__).resolve().parent.parent / "src" / "pavewright" / "web" / "static" / "lib" / "walk-questions.js"


def script() -> str:
    """Return the script."""
    rows = "".join(f"  {each.key}: {json.dumps(each.words, ensure_ascii=False)},\n" for each in WALK_QUESTIONS)
    usual = "".join(
        f"  {each.key}: {json.dumps(each.usual, ensure_ascii=False)},\n" for each in WALK_QUESTIONS if each.usual
    )
    on_site = "".join(f"  ASKED.{each.key},\n" for each in WALK_QUESTIONS if each.on_site)
    return (
        "// @ts-check\n"
        "// made by tools/make_walk_questions.py from the list of the program; do not edit\n"
        "/** The questions of the walk round, by name. */\n"
        f"export const ASKED = {{\n{rows}}};\n"
        "/** Answers that one touch gives. */\n"
        f"export const USUAL = {{\n{usual}}};\n"
        "/** Those that the page on site asks, in their order. */\n"
        f"export const ON_SITE = [\n{on_site}];\n"
    )


if __name__ == "__main__":
    PATH.write_text(script(), "utf-8")
