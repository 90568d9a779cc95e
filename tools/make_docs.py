#!/usr/bin/env python3
"""Write the pages of docs/ that the program makes itself, or with --check say which of them are stale.

python tools/make_docs.py
python tools/make_docs.py --check
"""

from __future__ import annotations

import json
import os
import sys
import tomllib
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click
from docs_asvs import asvs_page
from docs_contracts import contracts_page, rooms_picture

from pavewright import rulebook
from pavewright.catalogue import SUMS, CaseRecord, Standing, case_records, proofs, verify_cases
from pavewright.cli import main as command
from pavewright.desk import job_schema, make_plan
from pavewright.drawing import laying_plan, levels_plan, to_svg

if TYPE_CHECKING:
    from pavewright.rules import Figure, Rulebook, Table, TableRow

ROOT = Path(__file__).resolve().parent.parent
MADE_BY = "<!-- made by tools/make_docs.py; do not edit -->\n\n"


def cell(text: str) -> str:
    """Return text that cannot break a table row."""
    return text.replace("|", "\\|").replace("\n", " ")


def cases_page() -> str:
    """Return what is proved by print and what is not, and the table of examples: ours, printed, difference."""
    register = rulebook.sources()
    paths = sorted((ROOT / "tests" / "published").glob("*.toml"))
    documents = {path.stem: tomllib.loads(path.read_text("utf-8")) for path in paths}
    records = [record for document in documents.values() for record in case_records(document, register)]
    parts = [
        MADE_BY,
        "# Published examples\n\nOurs, printed and the difference for every answer of every case. Status:",
        " S inputs and answers read in the source, D worked out by us, C common practice, M from memory.\n",
        proof_part(records),
        source_part(records),
    ]
    for stem, document in documents.items():
        rows = verify_cases(document, register)
        parts.append(f"\n## {stem.replace('_', ' ')}\n\n")
        parts.append("| case | answer | ours | printed | difference | source |\n|---|---|---|---|---|---|\n")
        for row in rows:
            difference = "" if row.difference is None else f"{row.difference:+.3g} of {row.tolerance:.3g}"
            cells = (row.case, row.answer, row.ours, row.printed, difference, row.source)
            parts.append(f"| {' | '.join(cell(each) for each in cells)} |\n")
    return "".join(parts)


def proof_part(records: list[CaseRecord]) -> str:
    """Return the counts of cases by what they are worth as proof, and per sum."""
    parts = ["\n## What is proved\n\n| cases | how many |\n|---|---|\n"]
    parts.extend(
        f"| {standing.value} | {sum(record.standing is standing for record in records)} |\n" for standing in Standing
    )
    of_sums = proofs(records, SUMS)
    bare = [proof for proof in of_sums if not proof.printed]
    parts.append(f"\n{len(of_sums) - len(bare)} of {len(of_sums)} sums agree with at least one printed example.\n")
    for title, those in (("nothing printed agrees yet", bare), ("every sum", of_sums)):
        parts.append(f"\n### Cases by sum: {title}\n\n| sum | {' | '.join(each.value for each in Standing)} |\n")
        parts.append(f"|{'---|' * (len(Standing) + 1)}\n")
        for proof in those:
            counts = " | ".join(str(proof.counts.get(each, 0)) for each in Standing)
            parts.append(f"| {proof.sum_name} | {counts} |\n")
    return "".join(parts)


def source_part(records: list[CaseRecord]) -> str:
    """Return the sources of the cases with where to find them."""
    used = {record.source.key: record.source for record in records}
    parts = ["\n## Sources\n\n| source | author or publisher | year | where to find it | cases |\n"]
    parts.append("|---|---|---|---|---|\n")
    for key, source in sorted(used.items()):
        where = source.find if source.findable else f"cannot be looked up. {source.remark}".strip()
        count = str(sum(record.source.key == key for record in records))
        cells = (source.title, source.body, source.year, where, count)
        parts.append(f"| {' | '.join(cell(each) for each in cells)} |\n")
    return "".join(parts)


def figures_page() -> str:
    """Return every figure and table with its source and status; of an edition for a place, what differs there."""
    parts = [
        MADE_BY,
        "# Figures of the rulebook\n\nAn edition for a place has the common figures, but for those listed.\n",
    ]
    common = rulebook.load("common")
    for edition in ("common", *rulebook.localities()):
        book = rulebook.load(edition)
        alone = edition == "common"
        figures = {key: each for key, each in book.figures.items() if alone or common.figures.get(key) != each}
        tables = {key: each for key, each in book.tables.items() if alone or common.tables.get(key) != each}
        parts.append(f"\n## Edition {edition}\n\n{book.title}\n\n")
        if figures:
            parts.append("| figure | value | unit | what it is | source |\n|---|---|---|---|---|\n")
        parts += [figure_row(key, figure, book) for key, figure in sorted(figures.items())]
        parts += [table_part(key, table, book) for key, table in sorted(tables.items())]
    return "".join(parts)


def where_from(entry: Figure | TableRow, book: Rulebook) -> str:
    """Return the source of a figure or a row, its place there and how it is known."""
    title = book.sources[entry.source].title if entry.source in book.sources else entry.source
    return f"{title}, {entry.place}" if entry.place else title


def figure_row(key: str, figure: Figure, book: Rulebook) -> str:
    """Return the row of a figure."""
    span = "" if figure.low is None else f" ({figure.low:g} to {figure.high:g})"
    known = f"{where_from(figure, book)} – {figure.status.words}"
    cells = (key, f"{figure.value:g}{span}", figure.unit, figure.label, known)
    return f"| {' | '.join(cell(each) for each in cells)} |\n"


def table_part(key: str, table: Table, book: Rulebook) -> str:
    """Return a table with its heads."""
    head = " | ".join(f"{name} [{unit}]" for name, unit in table.columns)
    parts = [f"\n### {key}\n\n{table.label}\n\n| key | {head} | source |\n|{'---|' * (len(table.columns) + 2)}\n"]
    for row in table.rows:
        held = dict(row.values)
        values = " | ".join(f"{held[name]:g}" if name in held else "" for name, _ in table.columns)
        parts.append(f"| {row.key} | {values} | {cell(where_from(row, book))} – {row.status.words} |\n")
    return "".join(parts)


def sums_page() -> str:
    """Return every sum with its inputs and answers."""
    parts = [MADE_BY, "# Sums\n"]
    for entry in SUMS:
        parts.append(f"\n## {entry.name}\n\n{entry.title}. `{entry.formula}` – {entry.source}\n\n")
        for way, quantities in (("takes", (*entry.inputs, *entry.table_inputs)), ("gives", entry.outputs)):
            for quantity in quantities:
                unit = f" [{quantity.unit}]" if quantity.unit else ""
                default = "" if quantity.default is None else f" (else {quantity.default})"
                default = f" (else the rulebook's figure `{quantity.figure}`)" if quantity.figure else default
                default = f" (else from the rulebook's table `{quantity.table}`)" if quantity.table else default
                parts.append(f"- {way} `{quantity.name}`{unit}: {quantity.meaning}{default}\n")
    return "".join(parts)


_UNIT_BY_END = {
    "mm": "mm",
    "m2": "m²",
    "m3": "m³",
    "kg": "kg",
    "tonnes": "t",
    "deg": "degrees",
    "percent": "%",
    "minor": "pence or cents",
    "min": "minutes",
    "hour": "pence or cents an hour",
    "in": "n of 1 in n",
}


def job_page() -> str:
    """Return every field of the job document with its unit, what may stand there and what it means."""
    tree = job_schema()
    parts = [
        MADE_BY,
        "# The job document\n\nOne JSON file. Fields in **bold** have to be there; the others have a default.\n",
    ]
    names = ["Job", *sorted(tree["$defs"])]
    for name in names:
        kind = tree if name == "Job" else tree["$defs"][name]
        about = kind.get("description", "").strip()
        if "enum" in kind:
            first, _, rest = about.partition("\n")
            parts.append(f"\n## {name}\n\n{first} One of: {', '.join(kind['enum'])}.\n{rest}{rest and chr(10)}")
            continue
        parts.append(f"\n## {name}\n\n{about}\n\n| field | takes | unit | meaning |\n|---|---|---|---|\n")
        for field, reported in kind.get("properties", {}).items():
            shown = f"**{field}**" if field in kind.get("required", []) else field
            unit = _UNIT_BY_END.get(field.rsplit("_", 1)[-1], "") if "_" in field else ""
            meaning = reported.get("description", "")
            if reported.get("default") not in (None, "", [], {}) and not isinstance(reported["default"], dict):
                meaning = f"{meaning} Default {json.dumps(reported['default'], ensure_ascii=False)}.".strip()
            parts.append(f"| {shown} | {cell(takes(reported))} | {unit} | {cell(meaning)} |\n")
    return "".join(parts)


def takes(reported: dict[str, Any]) -> str:
    """Return in words what may stand in a field."""
    if "$ref" in reported:
        return reported["$ref"].rsplit("/", 1)[-1]
    if "anyOf" in reported:
        return " or ".join(takes(each) for each in reported["anyOf"] if each.get("type") != "null")
    if "enum" in reported or "const" in reported:
        return ", ".join(str(each) for each in reported.get("enum", [reported.get("const")]))
    if reported.get("type") == "array":
        return f"list of {takes(reported['items'])}" if "items" in reported else "list"
    if "pattern" in reported and reported["pattern"].startswith("^("):
        return reported["pattern"].strip("^$()").replace("|", ", ")
    words = {"number": "number", "integer": "whole number", "string": "words", "boolean": "true or false"}
    return "date" if reported.get("format") == "date" else words.get(reported.get("type", ""), "")


def glossary_page() -> str:
    """Return the trade's words with their meanings."""
    terms = tomllib.loads((ROOT / "docs" / "glossary.toml").read_text("utf-8"))["terms"]
    rows = "".join(f"| {term} | {cell(meaning)} |\n" for term, meaning in sorted(terms.items()))
    return f"{MADE_BY}# Glossary\n\n| word | meaning |\n|---|---|\n{rows}"


def terms_file() -> str:
    """Return the trade's words as the program searches them."""
    terms = tomllib.loads((ROOT / "docs" / "glossary.toml").read_text("utf-8"))["terms"]
    rows = "".join(
        f"{json.dumps(term, ensure_ascii=False)} = {json.dumps(meaning, ensure_ascii=False)}\n"
        for term, meaning in sorted(terms.items())
    )
    return f"# The words of docs/glossary.toml; made by tools/make_docs.py.\n[terms]\n{rows}"


def commands_page() -> str:
    """Return the help of every command as the program prints it."""
    parts = [MADE_BY, "# Commands\n"]
    for name, entry in [("", command), *sorted(command.commands.items())]:
        context = click.Context(entry, info_name=f"pavewright {name}".strip(), terminal_width=100)
        parts.append(f"\n```\n{entry.get_help(context)}\n```\n")
    return "".join(parts)


def pages() -> dict[Path, str]:
    """Return every generated page by its place."""
    docs = ROOT / "docs"
    terrace = make_plan((ROOT / "examples" / "l_terrace.json").read_bytes())
    return {
        docs / "sources" / "cases.md": cases_page(),
        docs / "sources" / "figures.md": figures_page(),
        docs / "sources" / "sums.md": sums_page(),
        docs / "commands.md": commands_page(),
        docs / "rooms" / "contracts.md": MADE_BY + contracts_page(),
        docs / "glossary.md": glossary_page(),
        docs / "asvs.md": MADE_BY + asvs_page(),
        ROOT / "src" / "pavewright" / "desk" / "terms.toml": terms_file(),
        docs / "job-document.md": job_page(),
        docs / "pictures" / "rooms.svg": rooms_picture(),
        docs / "pictures" / "laying-plan.svg": to_svg(laying_plan(terrace)),
        docs / "pictures" / "levels-plan.svg": to_svg(levels_plan(terrace)),
    }


def main(words: list[str]) -> int:
    """Write the pages, or check them."""
    os.environ.pop(rulebook.OWN_EDITIONS, None)  # the pages are of the program's own editions
    stale = []
    for path, text in pages().items():
        if path.is_file() and path.read_text("utf-8") == text:
            continue
        stale.append(path.relative_to(ROOT).as_posix())
        if "--check" not in words:
            path.parent.mkdir(parents=True, exist_ok=True)
            path.write_text(text, "utf-8")
    if "--check" in words and stale:
        print(f"Stale: {', '.join(stale)}. Run python tools/make_docs.py.")
        return 1
    print(f"{len(stale)} pages written." if "--check" not in words else "docs are fresh")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
