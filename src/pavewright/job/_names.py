"""Names: those that have to differ and stand twice, and those that nothing in the document answers to."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.job._faults import Fault

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from pavewright.job._document import Job
    from pavewright.job._paving import Area, Laying


def double_names(job: Job) -> Iterator[Fault]:
    """Give names that stand twice where each has to differ from the others."""
    site = job.site
    lists: tuple[tuple[str, str, Iterable[str]], ...] = (
        ("areas", "area", (each.name for each in job.areas)),
        ("units", "paving unit", (each.name for each in job.units)),
        ("steps", "flight of steps", (each.name for each in job.steps)),
        ("site.walls", "wall", (each.name for each in site.walls)),
        ("site.outfalls", "outfall", (each.name for each in site.outfalls)),
        ("site.gullies", "gully", (each.name for each in site.gullies)),
        ("site.channels", "channel", (each.name for each in site.channels)),
        ("site.covers", "cover", (each.name for each in site.covers)),
        ("site.obstacles", "obstacle", (each.name for each in site.obstacles)),
        ("site.trees", "tree", (each.name for each in site.trees)),
        ("site.boundaries", "boundary", (each.name for each in site.boundaries)),
        ("site.tie_ins", "edge to meet", (each.name for each in site.tie_ins)),
        ("site.services", "service", (each.name for each in site.services)),
        ("measurements.sketch", "sketched point", (each.name for each in job.measurements.sketch)),
        ("measurements.curves", "curve", (each.name for each in job.measurements.curves)),
        ("measurements.level_books", "level book", (each.name for each in job.measurements.level_books)),
        *_on_site_lists(job),
        ("rates.materials", "material", (each.key for each in job.rates.materials)),
        *(
            (f"site.walls.{number}.{field}", what, (each.name for each in entries))
            for number, wall in enumerate(site.walls)
            for field, what, entries in (
                ("openings", "opening", wall.openings),
                ("air_bricks", "air brick", wall.air_bricks),
            )
        ),
        *(
            (f"areas.{number}.zones", "zone", (each.name for each in area.zones))
            for number, area in enumerate(job.areas)
        ),
    )
    for path, what, names in lists:
        seen: set[str] = set()
        for number, name in enumerate(names):
            if name in seen:
                yield Fault(f"{path}.{number}", f"There are two of {what} {name}: give one of them another name.")
            seen.add(name)
    yield from _points_placed_twice(job)


def _on_site_lists(job: Job) -> Iterator[tuple[str, str, Iterable[str]]]:
    """Give the lists of what is written down on site."""
    yield ("site_days", "log of a day", (each.name for each in job.site_days))
    yield ("hold_checks", "check", (each.name for each in job.hold_checks))
    yield ("dig_found", "find", (each.name for each in job.dig_found))
    yield ("photo_planes", "photo", (each.name for each in job.photo_planes))
    yield ("phone_slopes", "slope", (each.name for each in job.phone_slopes))
    yield ("hose_tests", "hose test", (each.name for each in job.hose_tests))
    yield ("drain_marks", "mark at a drain", (each.name for each in job.drain_marks))
    yield ("snags", "snag", (each.name for each in job.snags))
    for number, test in enumerate(job.hose_tests):
        yield (f"hose_tests.{number}.marks", "mark", (each.name for each in test.marks))


def _points_placed_twice(job: Job) -> Iterator[Fault]:
    """Give points that have two pairs of coordinates, two offsets, or one of each."""
    measured = job.measurements
    entries = [
        (f"measurements.points.{number}", each.name, "by its coordinates")
        for number, each in enumerate(measured.points)
    ]
    entries += [
        (f"measurements.offsets.{number}", each.name, "by an offset") for number, each in enumerate(measured.offsets)
    ]
    seen: dict[str, str] = {}
    for path, name, how in entries:
        if name in seen:
            yield Fault(path, f"{name} is placed twice, {seen[name]} and {how}: leave one of the two out.")
        seen.setdefault(name, how)


def unknown_names(job: Job) -> Iterator[Fault]:
    """Give names of units, walls, outfalls, areas and corners that are nowhere defined."""
    laid, walls = {each.name for each in job.units}, {each.name for each in job.site.walls}
    for number, area in enumerate(job.areas):
        path, wall = f"areas.{number}", area.fall.away_from
        yield from _units(f"Area {area.name}", area.laying, f"{path}.laying", laid)
        for index, zone in enumerate(area.zones):
            yield from _units(f"{zone.name} in {area.name}", zone.laying, f"{path}.zones.{index}.laying", laid)
        if wall is not None and wall not in walls:
            yield Fault(f"{path}.fall.away_from", f"Area {area.name} falls away from {wall}, which is no wall here.")
        if area.fall.gully is not None and area.fall.gully not in {each.name for each in job.site.gullies}:
            words = f"Area {area.name} is folded to {area.fall.gully}, which is no gully here."
            yield Fault(f"{path}.fall.gully", words)
        yield from _edges(area, path)
    outfalls = {each.name for each in job.site.outfalls}
    drains = [(f"gullies.{n}", each.name, each.outfall) for n, each in enumerate(job.site.gullies)]
    drains += [(f"channels.{n}", each.name, each.outfall) for n, each in enumerate(job.site.channels)]
    for place, name, outfall in drains:
        if outfall is not None and outfall not in outfalls:
            words = f"{name} runs to {outfall}, which is not among the outfalls: say where it goes."
            yield Fault(f"site.{place}.outfall", words)
    yield from _steps(job)


def _units(what: str, laying: Laying, path: str, laid: set[str]) -> Iterator[Fault]:
    """Give units of a laying that are nowhere defined."""
    if laying.unit is not None and laying.unit not in laid:
        yield Fault(f"{path}.unit", f"{what} is laid in {laying.unit}, which is not among the units.")
    others = [(f"course_units.{place}", name) for place, name in enumerate(laying.course_units)]
    if laying.border is not None and laying.border.unit is not None:
        others.append(("border.unit", laying.border.unit))
    for field, name in others:
        if name not in laid:
            yield Fault(f"{path}.{field}", f"{what} is to have {name}, which is not among the units.")


def _edges(area: Area, path: str) -> Iterator[Fault]:
    corners = {corner.point for corner in area.outline}
    seen: set[str] = set()
    for number, edge in enumerate(area.edges):
        if edge.corner not in corners:
            words = f"An edge of {area.name} starts at {edge.corner}, which is none of its corners."
            yield Fault(f"{path}.edges.{number}.corner", words)
        if edge.corner in seen:
            words = f"The side of {area.name} that leaves {edge.corner} is held twice: keep one."
            yield Fault(f"{path}.edges.{number}", words)
        seen.add(edge.corner)
        if edge.to is not None and edge.corner in corners:
            order = [corner.point for corner in area.outline]
            end = order[(order.index(edge.corner) + 1) % len(order)]
            if end != edge.to:
                words = (
                    f"The side of {area.name} that leaves {edge.corner} ends at {end} and not at {edge.to}, as the outline "
                    f"is written: name the side by its first corner, or write the outline the other way round."
                )
                yield Fault(f"{path}.edges.{number}.to", words)


def _steps(job: Job) -> Iterator[Fault]:
    """Give flights of steps that join areas, or leave corners, that are not there."""
    areas = {each.name: each for each in job.areas}
    for number, steps in enumerate(job.steps):
        for field, name in (("upper_area", steps.upper_area), ("lower_area", steps.lower_area)):
            if name not in areas:
                yield Fault(f"steps.{number}.{field}", f"{steps.name} joins {name}, which is no area here.")
        if steps.upper_area == steps.lower_area:
            yield Fault(f"steps.{number}", f"{steps.name} joins {steps.upper_area} to itself: name two areas.")
        upper = areas.get(steps.upper_area)
        if upper is not None and steps.corner not in {corner.point for corner in upper.outline}:
            words = f"{steps.name} leaves {upper.name} at {steps.corner}, which is none of its corners."
            yield Fault(f"steps.{number}.corner", words)
