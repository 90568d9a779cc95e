"""Which parts of a job are evidence: what was measured, seen, signed or handed over; and with what it was measured.

Prices of the firm, its outputs and its overhead are none: of a change of these a record holds the hash of the job.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

EVIDENCE = frozenset({
    "measurements", "tools", "strings_set", "set_ups", "hold_checks", "dig_found", "units_read", "bags_used",
    "photo_planes", "phone_slopes", "as_laid", "held_to", "hose_tests", "drain_marks", "snags", "site_days",
    "handed_over", "accepted", "variations", "settled", "bills", "received", "done", "tolerance",
})  # fmt: skip
"""Parts of a job document whose every change is written out in its record."""
NOT_EVIDENCE = frozenset({
    "format", "version", "identity", "site", "areas", "steps", "units", "rates", "crew", "calendar", "terms",
    "agreement", "holds", "pins", "arrangements", "mixes", "quoted", "standing",
})  # fmt: skip
"""Parts that are design, wishes, or the firm's own business."""

WITH = (
    *("read_by", "measured_by", "checked_by", "decided_by", "by", "people"),
    *("instrument", "tool", "reading_sd_mm", "sd_mm", "place_sd_mm", "sd_percent"),
    *("date", "read_on", "measured_on", "on"),
)
"""Fields beside a reading that say who read it, with what, how well and on which day."""


def is_evidence(at: Sequence[Any]) -> bool:
    """Return whether what stands at a place of a job document is evidence."""
    return bool(at) and at[0] in EVIDENCE


def read_with(document: Mapping[str, Any], at: Sequence[Any]) -> dict[str, Any]:
    """Return what the document says of who read something, with what and how well, from the outside in.

    Args:
        document: The document in which it stands.
        at: Where it stands.
    """
    found: dict[str, Any] = {}
    for each in _on_the_way(document, at):
        found |= {name: each[name] for name in WITH if isinstance(each.get(name), str | int | float)}
    return found


def _on_the_way(document: Mapping[str, Any], at: Sequence[Any]) -> Iterator[Mapping[str, Any]]:
    here: Any = document
    for step in at:
        here = _field(here, step) if isinstance(step, str) else _item(here, step)
        if isinstance(here, dict):
            yield here


def _field(owner: Any, name: str) -> Any:  # noqa: ANN401 - any JSON value
    return owner.get(name) if isinstance(owner, dict) else None


def _item(items: Any, selector: Any) -> Any:  # noqa: ANN401 - any JSON value
    """Return the item of a list that a selector means; None where there is none."""
    if not isinstance(items, list) or not isinstance(selector, dict):
        return None
    wanted = {name: value for name, value in selector.items() if name != "nth"}
    if "is" in wanted:
        return next((each for each in items if each == wanted["is"]), None)
    fitting = (
        each for each in items if isinstance(each, dict) and all(each.get(name) == wanted[name] for name in wanted)
    )
    return next(fitting, None)


_READERS = ("read_by", "measured_by", "checked_by", "by")
_SPREADS = ("reading_sd_mm", "sd_mm", "place_sd_mm")
_DAYS = ("read_on", "measured_on", "on", "date")
READINGS = frozenset({
    "measurements", "strings_set", "set_ups", "hold_checks", "dig_found", "units_read", "photo_planes", "phone_slopes",
    "as_laid", "hose_tests", "drain_marks",
})  # fmt: skip
"""Parts of a job that hold readings: of each it matters with what and how well it was read."""


@dataclass(frozen=True, slots=True)
class Stated:
    """What is stated of a reading; nothing is taken where nothing was stated.

    Attributes:
        read_by: Who read it; empty where nobody said.
        instrument: With what; empty where nobody said.
        sd_mm: Standard deviation of one reading; None where nobody said. [mm]
        on: On which day, as written; empty where nobody said.
    """

    read_by: str
    instrument: str
    sd_mm: float | None
    on: str


def stated_of(facts: Mapping[str, Any]) -> Stated:
    """Return what an entry states of who read something, with what, how well and on which day."""
    operation = facts.get("op")
    item = operation.get("item", operation.get("to")) if isinstance(operation, dict) else None
    beside = facts.get("with")
    found = {**(beside if isinstance(beside, dict) else {}), **(item if isinstance(item, dict) else {})}
    spreads = (found.get(name) for name in _SPREADS)
    sd_mm = next((each for each in spreads if isinstance(each, int | float) and not isinstance(each, bool)), None)
    return Stated(
        _first(found, _READERS),
        _first(found, ("instrument", "tool")),
        None if sd_mm is None else float(sd_mm),
        _first(found, _DAYS),
    )


def _first(found: Mapping[str, Any], names: Sequence[str]) -> str:
    """Return the first of some fields that holds words; empty where none does."""
    return next((found[name] for name in names if isinstance(found.get(name), str) and found[name]), "")
