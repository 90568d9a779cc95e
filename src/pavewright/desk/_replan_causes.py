"""Why a price moves: what a job takes from the book that is not the same on both sides, and figures that differ."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator

    from pavewright.job import Job


class CauseKind(StrEnum):
    """What changed."""

    PRICE = "price"
    OUTPUT = "output"
    PERCENT = "percent"
    CREW = "crew"
    TERM = "term"
    FIGURE = "figure"


@dataclass(frozen=True, slots=True)
class Cause:
    """Something that is not the same on both sides.

    Attributes:
        kind: What it is.
        where: In which list or part it stands, as the job document calls it; empty for a figure.
        key: Which of the list; the key of a figure.
        field: Which field of it.
        old: Its value before; None where there was none.
        new: Its value now; None where there is none.
        lines: Keys of the lines that it moves by itself; empty where it may move many.
    """

    kind: CauseKind
    where: str
    key: str
    field: str
    old: Any
    new: Any
    lines: tuple[str, ...] = ()


_Row = dict[str, Any]
_Name = Callable[[int, _Row], str]
_LISTS: tuple[tuple[CauseKind, tuple[str, ...], _Name, _Name | None], ...] = (
    (CauseKind.PRICE, ("rates", "materials"), lambda _, row: row["key"], lambda _, row: f"material.{row['key']}"),
    (CauseKind.PRICE, ("rates", "catalogue"), lambda _, row: row["key"], lambda _, row: f"catalogue.{row['key']}"),
    (CauseKind.PRICE, ("units",), lambda _, row: row["name"], lambda number, _: f"units.{number + 1}"),
    (CauseKind.PRICE, ("rates", "plant"), lambda _, row: row["key"], None),
    (CauseKind.PRICE, ("rates", "labour"), lambda _, row: row["skill"], None),
    (CauseKind.OUTPUT, ("crew", "outputs"), lambda _, row: f"{row['kind']} {row.get('pattern') or ''}".strip(), None),
)
"""Lists of a job: how their entries are called, and the line that each of them moves."""
_SKIPPED = frozenset({"priced_on", "note", "supplier", "supplier_code", "url"})
"""Fields that move no price by themselves."""
_PARTS = (("rates", CauseKind.PRICE), ("crew", CauseKind.CREW), ("terms", CauseKind.TERM))


def causes_of(old: Job, new: Job, bought: Collection[str]) -> tuple[Cause, ...]:
    """Return what a job takes from the book that is not the same on both sides.

    Args:
        old: The job with all that it takes from the book, before.
        new: The same now.
        bought: What is bought on either side: of the catalogue nothing else is told.
    """
    before, after = old.model_dump(mode="json"), new.model_dump(mode="json")
    return (*_of_lists(before, after, bought), *_of_parts(before, after))


def _of_lists(before: _Row, after: _Row, bought: Collection[str]) -> Iterator[Cause]:
    for kind, path, name, line in _LISTS:
        old, new = (_named(_at(side, path), name) for side in (before, after))
        for key in dict.fromkeys((*old, *new)):
            if path[-1] == "catalogue" and key not in bought:
                continue
            number, row = new[key] if key in new else old[key]
            moved = () if line is None else (line(number, row),)
            one, other = (side[key][1] if key in side else {} for side in (old, new))
            for field in sorted({*one, *other} - _SKIPPED):
                if one.get(field) != other.get(field):
                    yield Cause(kind, ".".join(path), key, field, one.get(field), other.get(field), moved)


def _of_parts(before: _Row, after: _Row) -> Iterator[Cause]:
    lists = {path[-1] for _, path, _, _ in _LISTS}
    for part, kind in _PARTS:
        old, new = before[part], after[part]
        for field in sorted({*old, *new} - lists):
            if old.get(field) != new.get(field):
                what = CauseKind.PERCENT if field.endswith("_percent") else kind
                yield Cause(what, part, "", field, old.get(field), new.get(field))


def figure_causes(figures: list[dict[str, Any]]) -> tuple[Cause, ...]:
    """Return figures of the rulebook that the plan read and that differ.

    Args:
        figures: As a side tells them.
    """
    return tuple(Cause(CauseKind.FIGURE, "", each["key"], each["label"], each["old"], each["new"]) for each in figures)


def _at(side: _Row, path: tuple[str, ...]) -> list[_Row]:
    found: Any = side
    for each in path:
        found = found.get(each) or ()
    return list(found)


def _named(rows: list[_Row], name: _Name) -> dict[str, tuple[int, _Row]]:
    return {name(number, row): (number, row) for number, row in enumerate(rows)}
