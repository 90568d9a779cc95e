"""A variation written into a job: found by comparing two documents, or made of a cause such as a deeper dig."""

from __future__ import annotations

import copy
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from pavewright.buildup import LayerKey
from pavewright.desk._accepting import told, with_options
from pavewright.desk._read import read_firm
from pavewright.job import Fault, JobInvalid, load_document, parse, up_to_date
from pavewright.job.agreed import Variation, VariationCause
from pavewright.job.operations import between
from pavewright.pipeline import Room, plan_rooms, varied
from pavewright.rulebook import RulebookError, edition_of, load

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Callable

    from pavewright.job import Area, Job
    from pavewright.job.operations import Operation
    from pavewright.pipeline import PlanSoFar

_ROOMS = (Room.COST, Room.PROGRAMME, Room.BUILD_UPS)


@dataclass(frozen=True, slots=True)
class VariationHead:
    """What a person says of a variation.

    Attributes:
        name: What changes, in a few words.
        cause: Why it changes.
        reason: The reason in words.
        asked_by: Who asked for it.
        on: Day on which it is written.
        stored_revision: Under which number the document as it is is kept with the jobs.
    """

    name: str
    cause: VariationCause
    reason: str
    asked_by: str
    on: dt.date
    stored_revision: int | None = None


def vary_operations(
    document: str | bytes,
    before: str | bytes,
    book: str | bytes | None,
    head: VariationHead,
    report: Callable[[str], None] | None = None,
) -> list[Operation]:
    """Return the operations that enter into the register what a job adds to the job as it was.

    Args:
        document: The job as it is.
        before: The job as it was quoted, or with the last variation; its prices are those of the job as it is.
        book: The firm's book.
        head: What is said of it.
        report: Takes a word before each of the two plans; may raise to stop the work.

    Raises:
        JobInvalid: one of the two cannot be read.
        NotVariedError: one of them has no price, or nothing differs.
    """
    now = up_to_date(load_document(document))
    job = parse(now)
    found = found_variation(base_document(before, now, job), now, book, head, report)
    return between(now, {**now, "variations": [*now.get("variations", []), told(found)]})


def dig_deeper_operations(
    document: str | bytes,
    area: str,
    deeper_mm: float,
    book: str | bytes | None,
    head: VariationHead,
    report: Callable[[str], None] | None = None,
) -> list[Operation]:
    """Return the operations that dig an area deeper, filled with stone, and enter that into the register: one step.

    Raises:
        JobInvalid: the job cannot be read, there is no such area, or what lies under it is not known.
        NotVariedError: one of the two plans has no price.
    """
    now = up_to_date(load_document(document))
    made = planned_document(now, book)
    place = next((n for n, each in enumerate(made.job.areas) if each.name == area), None)
    if place is None or made.build_ups is None:
        message = f"There is no area {area} of which it is known what lies under it."
        raise JobInvalid((Fault("areas", message),))
    after = copy.deepcopy(now)
    after["areas"][place] |= deeper_base(made, made.job.areas[place], deeper_mm, head)
    found = found_variation(now, after, book, head, report)
    return between(now, {**after, "variations": [*now.get("variations", []), told(found)]})


def deeper_base(made: PlanSoFar, area: Area, deeper_mm: float, head: VariationHead) -> dict[str, Any]:
    """Return the fields of an area with more stone under it.

    Args:
        made: The plan of the job as it is.
        area: The area.
        deeper_mm: How much more. [mm]
        head: What is said of it.
    """
    assert made.build_ups is not None  # noqa: S101 - who calls has looked
    built = next(each for each in made.build_ups.areas if each.area == area.name)
    thick = {layer.key: layer.thickness_mm for layer in built.layers}
    if area.permeable is not None and built.is_permeable:
        stone = told(area.permeable) | {"stone_mm": thick.get(LayerKey.SUB_BASE, 0.0) + deeper_mm}
        return {"permeable": stone}
    design: dict[str, Any] = {
        "by": head.asked_by or head.name,
        "on": head.on.isoformat(),
        "sub_base_mm": thick.get(LayerKey.SUB_BASE, 0.0) + deeper_mm,
        "capping_mm": thick.get(LayerKey.CAPPING, 0.0),
        "note": head.reason,
    }
    if thick.get(LayerKey.BASE, 0.0) > 0.0:
        design["concrete_mm"] = thick[LayerKey.BASE]
    return {"base_rule": "designed", "base_design": design}


def base_document(before: str | bytes, now: dict[str, Any], job: Job) -> dict[str, Any]:
    """Return the job with which the job as it is is compared: with the prices and the edition of that, and its options.

    Args:
        before: The job as it was quoted, or with the last variation.
        now: The job as it is.
        job: The same, read.
    """
    base = copy.deepcopy(up_to_date(load_document(before)))
    if base.get("accepted") is None and job.accepted is not None:
        base = with_options(base, parse(base), {each.name for each in job.accepted.options})
    for field in ("quoted", "accepted"):
        base.pop(field, None)
        if field in now:
            base[field] = now[field]
    if "edition" in now["identity"]:
        base["identity"]["edition"] = now["identity"]["edition"]
    return base


def found_variation(
    before: dict[str, Any],
    after: dict[str, Any],
    book: str | bytes | None,
    head: VariationHead,
    report: Callable[[str], None] | None,
) -> Variation:
    """Return what one document adds to another, as a variation that nobody has signed yet.

    Args:
        before: The job as it was.
        after: The job as it is.
        book: The firm's book.
        head: What is said of it.
        report: Takes a word before each of the two plans; may raise to stop the work.

    Raises:
        NotVariedError: one of the two has no price, or nothing differs.
    """
    tell = report or (lambda _: None)
    tell("the job as it was")
    was = planned_document(before, book)
    tell("the job as it is")
    found = varied(was, planned_document(after, book))
    numbers = [each.number for each in parse(after).variations]
    return Variation(
        number=max(numbers, default=0) + 1,
        name=head.name,
        cause=head.cause,
        reason=head.reason,
        asked_by=head.asked_by,
        on=head.on,
        sums=found.sums,
        days=found.days,
        measures=found.measures,
        before=found.before,
        after=found.after,
        gaps=found.gaps,
        stored_revision=head.stored_revision,
    )


def planned_document(document: dict[str, Any], book: str | bytes | None) -> PlanSoFar:
    """Return the plan of a document with the rooms by which a variation is found.

    Args:
        document: The document.
        book: The firm's book.
    """
    job = parse(copy.deepcopy(document))
    try:
        rules = load(edition_of(job.identity.locality, job.identity.edition))
    except RulebookError as problem:
        raise JobInvalid((Fault("identity.locality", f"The rulebook cannot be read: {problem}."),)) from problem
    return plan_rooms(job, rules, _ROOMS, read_firm(book))
