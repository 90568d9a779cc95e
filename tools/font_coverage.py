#!/usr/bin/env python3
"""Write which signs the fonts of the papers have, in ranges, or with --check say whether that is stale.

python tools/font_coverage.py
python tools/font_coverage.py --check
"""

from __future__ import annotations

import sys
from pathlib import Path

from fontTools.ttLib import TTFont

FONTS = Path(__file__).resolve().parents[1] / "src" / "pavewright" / "papers" / "fonts"
PAGE = FONTS / "coverage.txt"


def coverage() -> str:
    """Return ranges of code points, one a line, first and last in hexadecimal figures."""
    signs: set[int] = set()
    for path in sorted(FONTS.iterdir()):
        if path.suffix in {".otf", ".ttf"}:
            with TTFont(path, lazy=True) as font:
                signs.update(font.getBestCmap())
    lines: list[str] = []
    first = last = -2
    for sign in (*sorted(signs), sys.maxunicode + 2):
        if sign != last + 1:
            if first >= 0:
                lines.append(f"{first:x} {last:x}\n")
            first = sign
        last = sign
    return "".join(lines)


def main(words: list[str]) -> int:
    """Write the page, or hold the one there against what it would be."""
    made = coverage()
    if words != ["--check"]:
        PAGE.write_text(made, "utf-8")
        return 0
    if PAGE.is_file() and PAGE.read_text("utf-8") == made:
        return 0
    print(f"{PAGE.name} is stale: run tools/font_coverage.py.", file=sys.stderr)
    return 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
