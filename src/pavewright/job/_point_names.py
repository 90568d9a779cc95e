"""Points: every place in the document that names one is checked against the points that were measured."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.job._faults import Fault

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.job._document import Job
    from pavewright.job._measured import TapePlan
    from pavewright.job._paving import OutlineCorner
    from pavewright.job._site import Site


def known_points(job: Job) -> frozenset[str]:
    """Return the names of all points that are placed by coordinates, offsets or tapes."""
    measured = job.measurements
    names = {each.name for each in measured.points} | {each.name for each in measured.offsets}
    names |= {each.name for each in measured.sketch}
    plan = measured.tape_plan
    return frozenset(names if plan is None else names | _taped(plan))


def _taped(plan: TapePlan) -> set[str]:
    ends = {end for tape in plan.tapes for end in (tape.start, tape.end)}
    ends |= {end for corner in plan.square_corners for end in (corner.at, corner.first, corner.second)}
    ends |= {each.point for each in plan.points_on_lines}
    return ends | {plan.base_from, plan.base_to}


def unknown_points(job: Job) -> Iterator[Fault]:
    """Give every name of a point that nobody measured."""
    known = known_points(job)
    for path, what, name in (*_named_on_the_site(job.site), *_named_by_areas(job)):
        if name not in known:
            words = f"{what} names point {name}, which is not measured: measure it, or correct the name."
            yield Fault(path, words)
    drop = job.arrangements.drop_point
    if drop is not None and drop not in known:
        words = f"Lorries set down at {drop}, which is not measured: measure it, or correct the name."
        yield Fault("arrangements.drop_point", words)
    for number, name in enumerate(job.measurements.ground_points):
        if name not in known:
            words = f"{name} is named as a spot of the ground and is not measured: measure it, or correct the name."
            yield Fault(f"measurements.ground_points.{number}", words)
    yield from _ground_lines(job, known)
    for number, point in enumerate(job.measurements.offsets):
        for field, name in (("line_from", point.line_from), ("line_to", point.line_to)):
            if name not in known:
                words = f"{point.name} is measured off a line to {name}, which is not measured itself."
                yield Fault(f"measurements.offsets.{number}.{field}", words)
    yield from _chords(job, known)
    yield from _sides(job, known)


def _chords(job: Job, known: frozenset[str]) -> Iterator[Fault]:
    """Give measured curves whose chord runs to a point that nobody measured."""
    for number, curve in enumerate(job.measurements.curves):
        for field, name in (("line_from", curve.line_from), ("line_to", curve.line_to)):
            if name not in known:
                words = f"Curve {curve.name} is measured off a line to {name}, which is not measured itself."
                yield Fault(f"measurements.curves.{number}.{field}", words)


def _ground_lines(job: Job, known: frozenset[str]) -> Iterator[Fault]:
    """Give points of break lines and of gaps in the ground that nobody measured."""
    for field, what, lists in (
        ("break_lines", "A break line", [each.points for each in job.measurements.break_lines]),
        ("ground_gaps", "A gap in the ground", [each.points for each in job.measurements.ground_gaps]),
    ):
        for number, points in enumerate(lists):
            for place, name in enumerate(points):
                if name not in known:
                    words = f"{what} names point {name}, which is not measured: measure it, or correct the name."
                    yield Fault(f"measurements.{field}.{number}.points.{place}", words)


def _sides(job: Job, known: frozenset[str]) -> Iterator[Fault]:
    """Give sides of taped points that name a point no tape reaches, and those that contradict each other."""
    plan = job.measurements.tape_plan
    stated: dict[tuple[str, str, str], str] = {}
    for number, each in enumerate(plan.sides if plan is not None else ()):
        path = f"measurements.tape_plan.sides.{number}"
        stray = [name for name in (each.point, each.line_from, each.line_to) if name not in known]
        if stray:
            yield Fault(path, f"The side of {each.point} names {stray[0]}, which no tape reaches.")
        line = (each.point, each.line_from, each.line_to)
        # looking back along the line, left and right change places
        turned = (each.point, each.line_to, each.line_from)
        if stated.get(line, each.side) != each.side or stated.get(turned, each.side.other) != each.side.other:
            words = (
                f"{each.point} is said to lie on both sides of {each.line_from}–{each.line_to}: look at the sketch and "
                f"keep the right one."
            )
            yield Fault(path, words)
        stated.setdefault(line, each.side)


def _lines_on_the_site(site: Site) -> Iterator[tuple[str, str, str, str]]:
    """Give place, owner, start and end of every line on the site."""
    for number, wall in enumerate(site.walls):
        yield f"site.walls.{number}", f"Wall {wall.name}", wall.start, wall.end
    for number, channel in enumerate(site.channels):
        yield f"site.channels.{number}", f"Channel {channel.name}", channel.start, channel.end
    for number, boundary in enumerate(site.boundaries):
        yield f"site.boundaries.{number}", f"Boundary {boundary.name}", boundary.start, boundary.end
    for number, edge in enumerate(site.tie_ins):
        yield f"site.tie_ins.{number}", f"Edge {edge.name}", edge.start, edge.end


def _named_on_the_site(site: Site) -> Iterator[tuple[str, str, str]]:
    """Give place, owner and name for every point that something on the site names."""
    for path, what, start, end in _lines_on_the_site(site):
        yield f"{path}.start", what, start
        yield f"{path}.end", what, end
    for number, gully in enumerate(site.gullies):
        yield f"site.gullies.{number}.point", f"Gully {gully.name}", gully.point
    for number, outfall in enumerate(site.outfalls):
        if outfall.soakaway is not None and outfall.soakaway.point is not None:
            yield f"site.outfalls.{number}.soakaway.point", f"Soakaway {outfall.name}", outfall.soakaway.point
    for number, cover in enumerate(site.covers):
        yield f"site.covers.{number}.point", f"Cover {cover.name}", cover.point
    for number, post in enumerate(site.obstacles):
        yield f"site.obstacles.{number}.point", f"Obstacle {post.name}", post.point
    for number, tree in enumerate(site.trees):
        yield f"site.trees.{number}.point", f"Tree {tree.name}", tree.point
    for number, service in enumerate(site.services):
        for place, name in enumerate(service.points):
            yield f"site.services.{number}.points.{place}", f"Service {service.name}", name


def _named_by_areas(job: Job) -> Iterator[tuple[str, str, str]]:
    """Give place, owner and name for every point that an area names."""
    for number, area in enumerate(job.areas):
        path, what = f"areas.{number}", f"Area {area.name}"
        for place, corner in enumerate(area.outline):
            yield from ((f"{path}.outline.{place}.{field}", what, name) for field, name in _of_corner(corner))
        for index, hole in enumerate(area.holes):
            for place, corner in enumerate(hole):
                owner = f"Hole {index + 1} of area {area.name}"
                named = _of_corner(corner)
                yield from ((f"{path}.holes.{index}.{place}.{field}", owner, name) for field, name in named)
        for place, zone in enumerate(area.zones):
            named = [
                (f"outline.{number}.{field}", name)
                for number, corner in enumerate(zone.outline)
                for field, name in _of_corner(corner)
            ]
            named += [(f"beyond.{end}", point) for end, point in enumerate(zone.beyond or ())]
            named += [(f"laying.along.{end}", point) for end, point in enumerate(zone.laying.along or ())]
            named += [("circle_at", zone.circle_at or ""), ("laying.origin", zone.laying.origin or "")]
            yield from ((f"{path}.zones.{place}.{field}", f"Zone {zone.name}", name) for field, name in named if name)
        wished = [("fall.level_at", area.fall.level_at), ("laying.origin", area.laying.origin)]
        wished += [(f"laying.along.{place}", point) for place, point in enumerate(area.laying.along or ())]
        for field, name in wished:
            if name is not None:
                yield f"{path}.{field}", what, name


def _of_corner(corner: OutlineCorner) -> list[tuple[str, str]]:
    """Return the points that a corner names, by field."""
    named = (("point", corner.point), ("through", corner.through), ("centre", corner.centre))
    return [(field, name) for field, name in named if name is not None]


def lines_of_no_length(job: Job) -> Iterator[Fault]:
    """Give lines that start and end on one point."""
    measured = job.measurements
    lines = [*_lines_on_the_site(job.site)]
    lines += [
        (f"measurements.offsets.{n}", f"The line off which {each.name} is measured", each.line_from, each.line_to)
        for n, each in enumerate(measured.offsets)
    ]
    lines += [
        (f"measurements.curves.{n}", f"The chord of {each.name}", each.line_from, each.line_to)
        for n, each in enumerate(measured.curves)
    ]
    if measured.tape_plan is not None:
        plan = measured.tape_plan
        lines += [("measurements.tape_plan.base_to", "The base line", plan.base_from, plan.base_to)]
        lines += [
            (f"measurements.tape_plan.tapes.{n}", "A tape", each.start, each.end) for n, each in enumerate(plan.tapes)
        ]
        lines += [
            (f"measurements.tape_plan.square_corners.{n}", f"A leg of the square corner {each.at}", each.at, leg)
            for n, each in enumerate(plan.square_corners)
            for leg in (each.first, each.second)
        ]
        lines += [
            (
                f"measurements.tape_plan.points_on_lines.{n}",
                f"The line on which {each.point} stands",
                each.line_from,
                each.line_to,
            )
            for n, each in enumerate(plan.points_on_lines)
        ]
    lines += [
        (f"areas.{n}.laying.along", f"The line along which {each.name} is laid", *each.laying.along)
        for n, each in enumerate(job.areas)
        if each.laying.along is not None
    ]
    for path, what, start, end in lines:
        if start == end:
            yield Fault(path, f"{what} runs from {start} to itself: name two points.")
