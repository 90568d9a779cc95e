"""The photos and slopes of a job, each with what it says."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.job.on_site import PhotoPlaneKind
from pavewright.photo_survey._answer import Limits, Picture, plane_from_photo
from pavewright.photo_survey._figures import photo_figures
from pavewright.photo_survey._slope import TurnedSlope, turned_slope
from pavewright.photo_survey._types import Mark, PhotoAnswer

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.job import Job
    from pavewright.job.on_site import PhoneSlope, PhotoMark, PhotoPlane
    from pavewright.photo_survey._figures import PhotoFigures
    from pavewright.rules import Rulebook
    from pavewright.survey import Survey, SurveyedPoint


@dataclass(frozen=True, slots=True)
class SlopeRead:
    """A slope of the job that was read with a tool turned end for end.

    Attributes:
        name: Its name in the job.
        found: What the readings say.
        error_large: Whether the tool shows so much too much that it is to be set before it is used.
        scatter_known: Whether there are pairs enough for their scatter to say something.
    """

    name: str
    found: TurnedSlope
    error_large: bool
    scatter_known: bool


@dataclass(frozen=True, slots=True)
class PhotoSurvey:
    """What the photos and the turned slopes of a job say.

    Attributes:
        photos: Every photo of a plane.
        not_placed: Marks that were left out because nothing says where they are, by photo and mark.
        slopes: Every slope.
    """

    photos: tuple[PhotoAnswer, ...]
    not_placed: tuple[tuple[str, str], ...]
    slopes: tuple[SlopeRead, ...]


def read_photos(job: Job, survey: Survey, rules: Rulebook) -> PhotoSurvey:
    """Return what the photos and the turned slopes of a job say, with the places that its points have now.

    Args:
        job: The job with its photos, marks and readings.
        survey: Where its points are.
        rules: The rulebook.
    """
    figures = photo_figures(rules)
    points = {point.name: point for point in survey.points}
    photos, left = [], []
    for photo in job.photo_planes:
        marks = [(mark, _placed(mark, photo, points, figures)) for mark in photo.marks]
        left += [(photo.name, mark.name) for mark, found in marks if found is None]
        known = tuple(found for _, found in marks if found is not None)
        photos.append(_read(photo, known, figures))
    return PhotoSurvey(tuple(photos), tuple(left), tuple(_slope(each, figures) for each in job.phone_slopes))


def _placed(
    mark: PhotoMark, photo: PhotoPlane, points: Mapping[str, SurveyedPoint], figures: PhotoFigures
) -> Mark | None:
    """Return a mark with its place on the plane; None where nothing says where it is."""
    seen, usual = (mark.seen_x_px, mark.seen_y_px), figures.known_sd_mm.value
    if mark.x_mm is not None and mark.y_mm is not None:
        return Mark(mark.name, seen, (mark.x_mm, mark.y_mm), usual if mark.sd_mm is None else mark.sd_mm)
    point = points.get(mark.point or "")
    if point is None or photo.kind is PhotoPlaneKind.WALL:
        return None
    given = mark.sd_mm if mark.sd_mm is not None else point.sd_mm
    return Mark(mark.name, seen, point.xy, usual if given is None else given)


def _read(photo: PhotoPlane, marks: tuple[Mark, ...], figures: PhotoFigures) -> PhotoAnswer:
    picture = Picture(
        photo.name,
        marks,
        tuple((thing.name, (thing.seen_x_px, thing.seen_y_px)) for thing in photo.things),
        (photo.width_px, photo.height_px),
        True if photo.kind is PhotoPlaneKind.FLOOR else None,
    )
    return plane_from_photo(picture, figures.trust(photo.kind), limits_of(figures))


def limits_of(figures: PhotoFigures) -> Limits:
    """Return when a photo is too weak."""
    return Limits(
        min_triangle_share=figures.min_triangle_share.value,
        min_marks_share=figures.min_marks_share.value,
        disagree_percent=figures.disagree_percent.value,
        max_beyond_share=figures.max_beyond_share.value,
        low_camera_deg=figures.low_camera_deg.value,
        grazing_deg=figures.grazing_deg.value,
        max_sd_mm=figures.max_sd_mm.value,
        lens_found_share=figures.lens_found_share.value,
    )


def _slope(read: PhoneSlope, figures: PhotoFigures) -> SlopeRead:
    found = turned_slope(
        [pair.first_deg for pair in read.pairs],
        [pair.turned_deg for pair in read.pairs],
        figures.slope_sd(read.tool).value,
        figures.slope_trusted_sds.value,
        figures.slope_confidence_percent.value,
    )
    large = abs(found.error_deg) > figures.slope_error_max_deg.value
    return SlopeRead(read.name, found, large, found.pairs >= figures.slope_pairs_wanted.value)
