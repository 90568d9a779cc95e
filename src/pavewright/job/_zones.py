"""Zones: each is given in one way, and by a name of its own."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.job._faults import Fault

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.job._document import Job
    from pavewright.job._paving import Zone

_MIN_CORNERS = 3


def zone_faults(job: Job) -> Iterator[Fault]:
    """Give zones that are given in no way or in several, and names that stand twice."""
    for number, area in enumerate(job.areas):
        seen: set[str] = set()
        for place, zone in enumerate(area.zones):
            path = f"areas.{number}.zones.{place}"
            if zone.name in seen:
                yield Fault(f"{path}.name", f"{area.name} has two zones called {zone.name}: give one another name.")
            seen.add(zone.name)
            yield from _one_way(zone, path)


def _one_way(zone: Zone, path: str) -> Iterator[Fault]:
    ways = [bool(zone.outline), zone.circle_at is not None or zone.radius_mm is not None, zone.beyond is not None]
    if sum(ways) != 1:
        yield Fault(
            path, f"Zone {zone.name}: give its outline, or a circle, or a line beyond which it lies; one of them."
        )
    elif (zone.circle_at is None) != (zone.radius_mm is None):
        yield Fault(path, f"Zone {zone.name} is round: give its centre and its radius.")
    elif zone.outline and len(zone.outline) < _MIN_CORNERS and not any(each.is_curved for each in zone.outline):
        yield Fault(f"{path}.outline", f"Zone {zone.name} has {len(zone.outline)} corners and no arc: it needs three.")
    elif zone.beyond is not None and zone.beyond[0] == zone.beyond[1]:
        yield Fault(
            f"{path}.beyond", f"The line of zone {zone.name} runs from {zone.beyond[0]} to itself: name two points."
        )
