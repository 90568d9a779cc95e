"""Write what differs from country to country for the scripts of the pages and for the glossary, from one table.

python tools/make_country.py            write static/lib/country.js and the regions of docs/glossary.toml
python tools/make_country.py --check    say whether they are as they would be written; exit 1 where not
"""

from __future__ import annotations

import json
import sys
from pathlib import Path

from pavewright.writing import COUNTRY_WORDS, HOUSE_REGIONS, MARKS, USUAL_MARKS, words_of

ROOT = Path(__file__).parents[1]
SCRIPT = ROOT / "src" / "pavewright" / "web" / "static" / "lib" / "country.js"
GLOSSARY = ROOT / "docs" / "glossary.toml"
_WIDE = 108
_BEGINS = "\n[regions."


def _wrapped(names: list[str]) -> str:
    """Return names as a text of several lines."""
    rows, row = [], ""
    for name in names:
        if len(row) + len(name) > _WIDE:
            rows.append(row)
            row = ""
        row += f"{name} "
    rows.append(row.rstrip())
    return " +\n      ".join(json.dumps(each) for each in rows)


def _kind(names: str, marks: tuple[str, str]) -> str:
    """Return regions with their marks, in as many lines as they take."""
    said = f"[{', '.join(json.dumps(each) for each in marks)}]"
    if "\n" in names:
        return f"  [\n    {names},\n    {said},\n  ],\n"
    return f"  [{names}, {said}],\n"


def _key(word: str) -> str:
    """Return a word as a name of a field, quoted where it has to be."""
    return word if word.isidentifier() else json.dumps(word)


def script() -> str:
    """Return the table as a module of the pages."""
    kinds: dict[tuple[str, str], list[str]] = {}
    for region, marks in sorted(MARKS.items()):
        kinds.setdefault(marks, []).append(region)
    written = "".join(_kind(_wrapped(names), kind) for kind, names in sorted(kinds.items()))
    words = "".join(
        f"  {region}: {{\n"
        + "".join(f"    {_key(here)}: {json.dumps(there)},\n" for here, there in words_of(region).items())
        + "  },\n"
        for region in COUNTRY_WORDS
    )
    return (
        "// @ts-check\n"
        "// made by tools/make_country.py from pavewright.writing; do not edit\n\n"
        "/** What words of the glossary are called, by region. */\n"
        f"export const WORDS = /** @type {{Record<string, Record<string, string>>}} */ ({{\n{words}}});\n"
        "/** Regions with their mark between thousands and their decimal mark. */\n"
        f"export const MARKS = /** @type {{[string, [string, string]][]}} */ ([\n{written}]);\n"
        f"export const USUAL_MARKS = /** @type {{[string, string]}} */ ({json.dumps(list(USUAL_MARKS))});\n"
        f"export const HOUSE_REGIONS = {json.dumps(sorted(HOUSE_REGIONS))};\n"
    )


def glossary(before: str) -> str:
    """Return the glossary with the words of each region, how well each is known behind it."""
    head = before.partition(_BEGINS)[0].rstrip("\n")
    tables = []
    for region, words in COUNTRY_WORDS.items():
        rows = "".join(f'"{each.here}" = "{each.there}"  # {each.status.value}: {each.source}\n' for each in words)
        tables.append(f"\n[regions.{region.lower()}]\n{rows}")
    return f"{head}\n{''.join(tables)}"


def main() -> int:
    """Write both, or say whether they are as they would be written."""
    wanted = {SCRIPT: script(), GLOSSARY: glossary(GLOSSARY.read_text("utf-8"))}
    if "--check" not in sys.argv[1:]:
        for path, text in wanted.items():
            path.write_text(text, "utf-8")
        return 0
    stale = [path.name for path, text in wanted.items() if not path.is_file() or path.read_text("utf-8") != text]
    if stale:
        print(f"{', '.join(stale)}: run python tools/make_country.py", file=sys.stderr)
    return int(bool(stale))


if __name__ == "__main__":
    sys.exit(main())
