"""What is read at hold points, and what the dig found, that cannot be: names of nothing, half a find."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.job._faults import Fault
from pavewright.job.on_site._holds import FoundKind, HoldCheckKind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.job._document import Job
    from pavewright.job.on_site._holds import DigFound, HoldCheck

_CORNERS = 3


def hold_faults(job: Job) -> Iterator[Fault]:
    """Give checks and finds that name nothing of the job, and those that say too little."""
    areas = {each.name for each in job.areas}
    site = job.site
    drains = {
        *(each.name for each in site.channels),
        *(each.name for each in site.gullies),
        *(each.name for each in site.outfalls),
    }
    for number, check in enumerate(job.hold_checks):
        path = f"hold_checks.{number}"
        if check.kind is HoldCheckKind.DRAIN:
            yield from _of_drain(check, path, drains)
        elif check.area not in areas:
            yield Fault(f"{path}.area", f"{check.name} was read on no area of the job: name the area.")
        if check.kind is HoldCheckKind.LAYER and check.layer is None:
            yield Fault(f"{path}.layer", f"Which layer was read in {check.name}? Name it.")
    for number, found in enumerate(job.dig_found):
        path = f"dig_found.{number}"
        if found.area not in areas:
            yield Fault(f"{path}.area", f"{found.name} was found in no area of the job: name the area.")
        yield from _half_found(found, path)


def _of_drain(check: HoldCheck, path: str, drains: set[str]) -> Iterator[Fault]:
    if check.drain not in drains:
        words = f"{check.name} looks at no channel, gully or outfall of the job: name the drain."
        yield Fault(f"{path}.drain", words)


def _half_found(found: DigFound, path: str) -> Iterator[Fault]:
    """Give what a find leaves out without which it has no volume."""
    if found.outline and len(found.outline) < _CORNERS:
        yield Fault(f"{path}.outline", f"The outline of {found.name} has fewer than three corners: give another one.")
    if found.kind is FoundKind.DRAIN and found.length_mm is None:
        yield Fault(f"{path}.length_mm", f"How long is {found.name} within the dig? Measure it.")
    if found.kind in {FoundKind.SOFT_SPOT, FoundKind.CONCRETE} and not found.outline and found.area_m2 is None:
        yield Fault(f"{path}.area_m2", f"How large is {found.name}? Give its outline, or its square metres.")
