"""The page of where the program stands against OWASP ASVS, made of docs/asvs.toml."""

from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parent.parent
TABLE = ROOT / "docs" / "asvs.toml"
STATUSES = ("met", "met, not tested", "not met", "does not apply")
"""What is said of a point; each but the first has a reason."""
HEAD = """# Against OWASP ASVS

Every point of levels 1 and 2 of the OWASP Application Security Verification Standard 4.0.3, by its number; the words
are ours, the standard has its own. We looked through code and tests ourselves; nobody else checked it.

- **met**: the tests named pass where it holds.
- **met, not tested**: read in the code; no test would fail without it.
- **not met**: what is missing stands there. Tests named show the part that stands.
- **does not apply**: there is nothing of the kind here.
"""


def points() -> dict[str, Any]:
    """Return the table: its chapters with the numbers of each level, and its points."""
    return tomllib.loads(TABLE.read_text("utf-8"))


def chapter_of(point: dict[str, Any]) -> int:
    """Return the chapter of a point.

    >>> chapter_of({"number": "12.3.1"})
    12
    """
    return int(point["number"].partition(".")[0])


def counts(those: list[dict[str, Any]]) -> list[int]:
    """Return how many of some points stand as each status says."""
    return [sum(each["status"] == status for each in those) for status in STATUSES]


def asvs_page() -> str:
    """Return the page: counts by chapter and by level, then every point."""
    table = points()
    found = table["points"]
    parts = [HEAD, f"\n| chapter | {' | '.join(STATUSES)} | points |\n|{'---|' * (len(STATUSES) + 2)}\n"]
    chapters = [(each, [point for point in found if chapter_of(point) == each["number"]]) for each in table["chapters"]]
    for chapter, those in chapters:
        parts.append(_count_row(f"V{chapter['number']} {chapter['title']}", those))
    by_level = {level: [point for point in found if point["level"] == level] for level in (1, 2)}
    parts += [_count_row(f"**level {level}**", those) for level, those in by_level.items()]
    parts.append(_count_row("**all**", found))
    for chapter, those in chapters:
        parts.append(f"\n## V{chapter['number']} {chapter['title']}\n\n")
        parts.append("| point | level | status | what we do | proof or reason |\n|---|---|---|---|---|\n")
        parts += [_row(point) for point in those]
    return "".join(parts)


def _count_row(name: str, those: list[dict[str, Any]]) -> str:
    return f"| {name} | {' | '.join(str(count) for count in counts(those))} | {len(those)} |\n"


def _row(point: dict[str, Any]) -> str:
    proof = [point["reason"]] if "reason" in point else []
    proof += [f"`{each}`" for each in point.get("tests", ())]
    status = f"**{point['status']}**" if point["status"] == "not met" else point["status"]
    return f"| {point['number']} | {point['level']} | {status} | {point['what']} | {'<br>'.join(proof)} |\n"
