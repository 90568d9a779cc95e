"""One side of a comparison: a job planned with a book and an edition, as plain values that are kept and compared."""

from __future__ import annotations

import json
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from pavewright import firm, rulebook
from pavewright.cost import PriceStep
from pavewright.desk._plain import plain
from pavewright.desk._read import read_firm
from pavewright.job import Fault, JobInvalid, load_document, parse
from pavewright.pipeline import Room, plan_rooms
from pavewright.rules import changes, watched

if TYPE_CHECKING:
    from pavewright.cost import Cost
    from pavewright.job import Job
    from pavewright.pipeline import PlanSoFar
    from pavewright.rules import FigureChange, Rulebook

_ROOMS = (Room.COST, Room.PROGRAMME)


def asked_side(document: str, edition: str, against: str | None, *, quoted: bool) -> bytes:
    """Return the payload of a side.

    Args:
        document: The job document.
        edition: Edition of the rulebook that it is planned with.
        against: Edition of the other side: figures that were read and differ there are told; None for the same one.
        quoted: Whether a quoted job keeps its quotation.
    """
    asked = {"document": document, "edition": edition, "against": against, "quoted": quoted}
    return json.dumps(asked, sort_keys=True, ensure_ascii=False).encode()


def planned_side(payload: bytes, book: bytes | None = None) -> bytes:
    """Return what one side of a comparison answers: price, lines, dates, findings, or why there is no plan.

    Args:
        payload: As ``asked_side`` makes it.
        book: The firm's book, the same for all jobs of a side; None where there is none.
    """
    asked = json.loads(payload)
    against = asked["against"]
    try:
        job, rules = side_job(asked["document"], asked["edition"], quoted=asked["quoted"])
        watching, log = watched(rules)
        made = plan_rooms(job, watching if against else rules, _ROOMS, read_firm(book))
        figures = changes(rulebook.load(against), rules, log) if against else ()
    except (JobInvalid, rulebook.RulebookError) as refusal:
        faults = refusal.faults if isinstance(refusal, JobInvalid) else (Fault("identity.locality", str(refusal)),)
        return told_as_json({"faults": [_fault(each) for each in faults]})
    return told_as_json(_side(made, figures))


def side_job(document: str | bytes, edition: str, *, quoted: bool) -> tuple[Job, Rulebook]:
    """Return the job of a side and its rulebook.

    Args:
        document: The job document.
        edition: Edition of the rulebook.
        quoted: Whether a quoted job keeps its quotation.

    Raises:
        JobInvalid: the document is no job.
        RulebookError: the edition cannot be read.
    """
    job = parsed(document)
    return job if quoted else firm.unquoted(job), rulebook.load(edition)


@lru_cache(maxsize=4)
def parsed(document: str | bytes) -> Job:
    """Return the job of a document, read once for both of its sides.

    Args:
        document: The job document.

    Raises:
        JobInvalid: the document is no job.
    """
    return parse(load_document(document), rulebook.localities())


def told_as_json(answer: dict[str, Any]) -> bytes:
    """Return an answer as bytes, the same for the same answer."""
    return json.dumps(answer, sort_keys=True, ensure_ascii=False, separators=(",", ":")).encode()


def _side(made: PlanSoFar, figures: tuple[FigureChange, ...]) -> dict[str, Any]:
    if made.cost is None:
        missing = [{"path": each.path, "message": each.words} for each in made.why_not((Room.COST,))]
        return {"faults": [_fault(each) for each in made.faults] or missing}
    items = () if made.quantities is None else made.quantities.items
    return {
        "faults": [],
        **_priced(made.cost),
        "currency": made.job.identity.currency,
        "finish": None if made.programme is None else made.programme.finish.isoformat(),
        "findings": [
            {"code": each.code, "severity": each.severity.value, "place": each.place, "message": each.message}
            for each in made.findings
        ],
        "bought": sorted({key for item in items for key in (item.key.catalogue, item.key.material) if key}),
        "figures": [_figure(each) for each in figures],
    }


def _priced(cost: Cost) -> dict[str, Any]:
    return {
        "steps": {each.value: getattr(cost, f"{each.value}_minor") for each in PriceStep},
        "gaps": len(cost.gaps),
        "lines": [
            {
                "key": line.key.text,
                "group": line.group.value,
                "description": line.description,
                "unit": line.unit,
                "quantity": line.quantity,
                "rate_minor": line.rate_minor,
                "amount_minor": line.amount_minor,
            }
            for line in cost.lines
        ],
    }


def _figure(change: FigureChange) -> dict[str, Any]:
    known = change.after or change.before
    assert known is not None  # noqa: S101 - a change has one side at least
    sides = [None if each is None else each.value for each in (change.before, change.after)]
    return {"key": known.key, "label": known.label, "unit": known.unit, "old": plain(sides[0]), "new": plain(sides[1])}


def _fault(fault: Fault) -> dict[str, str]:
    return {"path": fault.path, "message": fault.message}
