"""What a handover says that cannot be: names of nothing, things that stand twice, days in the wrong order."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.job._faults import Fault

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from pavewright.job._document import Job
    from pavewright.job.handover import HandedOver


def handover_faults(job: Job) -> Iterator[Fault]:
    """Give names of nothing, entries that stand twice and days in the wrong order."""
    told = job.handed_over
    if told is None:
        return
    units, areas = {each.name for each in job.units}, {each.name for each in job.areas}
    covers = {each.name for each in job.site.covers}
    for number, batch in enumerate(told.batches):
        path = f"handed_over.batches.{number}"
        if batch.unit is None and not batch.product.strip():
            yield Fault(path, "Say of what this batch is: a paving unit of the job, or the product on its label.")
        yield from _unknown(f"{path}.unit", batch.unit, units, "paving unit")
        yield from _unknown(f"{path}.area", batch.area, areas, "area")
    for number, keys in enumerate(told.cover_keys):
        yield from _unknown(f"handed_over.cover_keys.{number}.cover", keys.cover, covers, "cover")
    for number, spare in enumerate(told.spares):
        yield from _unknown(f"handed_over.spares.{number}.unit", spare.unit, units, "paving unit")
    yield from _twice("cover_keys", [each.cover for each in told.cover_keys])
    yield from _twice("spares", [each.unit for each in told.spares])
    yield from _twice("buried", [each.name for each in told.buried])
    yield from _days(told)


def _unknown(path: str, name: str | None, known: Iterable[str], what: str) -> Iterator[Fault]:
    if name is not None and name not in known:
        yield Fault(path, f"There is no {what} {name}: choose one of the job.")


def _twice(field: str, names: list[str]) -> Iterator[Fault]:
    for number, name in enumerate(names):
        if name in names[:number]:
            yield Fault(f"handed_over.{field}.{number}", f"{name} stands twice: keep one of the two entries.")


def _days(told: HandedOver) -> Iterator[Fault]:
    done = told.completed_on
    if done is None:
        return
    for field, what, day in (
        ("handed_on", "It was handed over", told.handed_on),
        ("warranty_until", "The warranty ends", told.warranty_until),
    ):
        if day is not None and day < done:
            words = f"{what} before the day on which it was complete: look again at both dates."
            yield Fault(f"handed_over.{field}", words)
