"""What is written down of finished paving that cannot be: names of nothing, half a place, a day before the other."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.job._faults import Fault
from pavewright.job.on_site._snags import SnagState

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.job._document import Job
    from pavewright.job.on_site._snags import Snag


def laid_faults(job: Job) -> Iterator[Fault]:
    """Give hose tests, marks at drains and snags that name nothing of the job, and those that say too little."""
    areas = {each.name for each in job.areas}
    drains = {each.name for each in job.site.channels} | {each.name for each in job.site.gullies}
    for number, test in enumerate(job.hose_tests):
        if test.area not in areas:
            yield Fault(f"hose_tests.{number}.area", f"{test.name} was on no area of the job: name the area.")
    for number, mark in enumerate(job.drain_marks):
        if mark.drain not in drains:
            words = f"{mark.name} was read at no channel or gully of the job: name the drain."
            yield Fault(f"drain_marks.{number}.drain", words)
    for number, snag in enumerate(job.snags):
        if snag.area is not None and snag.area not in areas:
            yield Fault(
                f"snags.{number}.area", f"{snag.name} lies on no area of the job: name the area, or leave it out."
            )
        yield from _of_snag(snag, f"snags.{number}")


def _of_snag(snag: Snag, path: str) -> Iterator[Fault]:
    if (snag.x_mm is None) != (snag.y_mm is None):
        yield Fault(f"{path}.x_mm", f"{snag.name} has half a place: give both measures, or neither.")
    if snag.closed_on is not None and snag.closed_on < snag.found_on:
        yield Fault(f"{path}.closed_on", f"{snag.name} was closed before it was found: check both days.")
    if snag.state is not SnagState.OPEN and snag.closed_on is None:
        yield Fault(f"{path}.closed_on", f"When was {snag.name} closed? Give the day.")
