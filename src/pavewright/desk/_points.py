"""Points from a file, as the job document writes them."""

from __future__ import annotations

import copy
from typing import Any

from pavewright.desk._read import read_job
from pavewright.files import FileRefusedError, ReadLine, ReadPoint, write_csv_points, write_dxf_points
from pavewright.survey import survey


def points_with(document: dict[str, Any], points: list[dict[str, Any]]) -> dict[str, Any]:
    """Return a job document with points added to those measured by coordinates.

    Raises:
        FileRefusedError: a name is taken already, or the document has no list of points.
    """
    changed = copy.deepcopy(document)
    measurements = changed.setdefault("measurements", {})
    listed = measurements.setdefault("points", []) if isinstance(measurements, dict) else None
    if not isinstance(listed, list) or not all(isinstance(each, dict) for each in listed):
        message = "The job keeps no list of points under measurements: look whether it is a job document."
        raise FileRefusedError(message)
    taken = {each.get("name") for each in listed}
    twice = next((point["name"] for point in points if point["name"] in taken), None)
    if twice is not None:
        message = f"The job has a point {twice} already: rename it in the file, or take it out of the job."
        raise FileRefusedError(message)
    listed += points
    return changed


def surveyed_points(document: bytes, ending: str) -> bytes:
    """Return every point of a job at its place, adjusted, as a file: ``.csv`` or ``.dxf`` with the break lines.

    Raises:
        JobInvalid: the readings make no plan.
        FileRefusedError: another kind of file.
    """
    if ending not in {".csv", ".dxf"}:
        message = "Points are written as .csv or .dxf: name the file so."
        raise FileRefusedError(message)
    job, rules = read_job(document)
    found = survey(job, rules)
    points = tuple(
        ReadPoint(point.name, point.x_mm, point.y_mm, point.level_mm, point.levelled_words) for point in found.points
    )
    if ending == ".csv":
        return write_csv_points(points)
    named = {point.name for point in points}
    lines = tuple(
        ReadLine("BREAK_LINES", line.points, closed=False)
        for line in job.measurements.break_lines
        if named.issuperset(line.points)
    )
    return write_dxf_points(points, lines)
