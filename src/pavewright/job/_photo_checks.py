"""Photos that measure, where they say too little or name what is not there."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.job._faults import Fault

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.job._document import Job
    from pavewright.job.on_site._photo import PhotoPlane


def photo_faults(job: Job) -> Iterator[Fault]:
    """Give photos of walls that are not there, marks that say no place, and things of one photo that share a name."""
    walls = {each.name for each in job.site.walls}
    for number, photo in enumerate(job.photo_planes):
        path = f"photo_planes.{number}"
        if photo.wall is not None and photo.wall not in walls:
            yield Fault(f"{path}.wall", f"{photo.name} shows {photo.wall}, which is no wall here.")
        yield from _marks(photo, path)
        for field, names in (
            ("marks", [each.name for each in photo.marks]),
            ("things", [each.name for each in photo.things]),
        ):
            for place, name in enumerate(names):
                if name in names[:place]:
                    words = f"There are two of {name} in {photo.name}: give one of them another name."
                    yield Fault(f"{path}.{field}.{place}", words)


def _marks(photo: PhotoPlane, path: str) -> Iterator[Fault]:
    for number, mark in enumerate(photo.marks):
        placed = mark.x_mm is not None and mark.y_mm is not None
        if not placed and (mark.point is None or mark.x_mm is not None or mark.y_mm is not None):
            words = f"Where is {mark.name} in {photo.name}? Name its point, or give both measures of its place."
            yield Fault(f"{path}.marks.{number}", words)
