"""What readings as laid say that cannot be: areas that are not there, names twice, visits before the paving."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.job._faults import Fault

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.job._document import Job
    from pavewright.job.on_site import AsLaid


def as_laid_faults(job: Job) -> Iterator[Fault]:
    """Give readings on areas that are not there, entries that stand twice and later visits that fit no reading."""
    told = job.as_laid
    if told is None:
        return
    areas = {each.name for each in job.areas}
    for field, named in (
        ("readings", [each.area for each in told.readings]),
        ("gaps", [each.area for each in told.gaps]),
        ("lips", [each.area for each in told.lips]),
        ("joints", [each.area for each in told.joints]),
    ):
        for number, name in enumerate(named):
            if name not in areas:
                words = f"There is no area {name}: name the area that was read on."
                yield Fault(f"as_laid.{field}.{number}.area", words)
    for field, names in (
        ("gaps", [each.name for each in told.gaps]),
        ("lips", [each.name for each in told.lips]),
        ("joints", [each.name for each in told.joints]),
        ("marks", [each.name for each in told.marks]),
    ):
        yield from _twice(f"as_laid.{field}", names)
    yield from _visits(told)


def _visits(told: AsLaid) -> Iterator[Fault]:
    """Give later visits that come before the first, read a place that was not read, or read one twice."""
    yield from _twice("as_laid.later_visits", [each.date.isoformat() for each in told.later_visits])
    for number, visit in enumerate(told.later_visits):
        path = f"as_laid.later_visits.{number}"
        if visit.date <= told.date:
            words = f"The later visit is dated {visit.date.isoformat()}, not after {told.date.isoformat()}, the day as laid."
            yield Fault(f"{path}.date", words)
        yield from _twice(f"{path}.marks", [each.name for each in visit.marks])
        yield from _twice(f"{path}.read_again", [each.label for each in visit.read_again])
        for place, (again, named) in enumerate(zip(visit.read_again, told.read_again(visit), strict=True)):
            if len(named) != 1:
                many = "no reading" if not named else f"{len(named)} readings"
                words = f"{many} as laid has the label {again.label}: a later reading names one that was read as laid."
                yield Fault(f"{path}.read_again.{place}.label", words[0].upper() + words[1:])


def _twice(path: str, names: list[str]) -> Iterator[Fault]:
    seen: set[str] = set()
    for number, name in enumerate(names):
        if name in seen:
            yield Fault(f"{path}.{number}", f"There are two of {name}: give one of them another name, or delete it.")
        seen.add(name)
