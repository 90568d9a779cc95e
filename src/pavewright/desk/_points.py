"""Points from a file, as the job document writes them."""

from __future__ import annotations

import copy
from typing import Any

from pavewright.files import FileRefusedError, read_csv_points


def read_points(content: bytes, order: str, unit: str) -> list[dict[str, Any]]:
    """Return the points of a CSV file as entries of the job document.

    Raises:
        FileRefusedError: the file cannot be taken over; says where and why.
    """
    found = []
    for point in read_csv_points(content, order, unit):
        entry: dict[str, Any] = {"name": point.name, "x_mm": point.x_mm, "y_mm": point.y_mm}
        if point.level_mm is not None:
            entry["level_mm"] = point.level_mm
        if point.note:
            entry["note"] = point.note
        found.append(entry)
    return found


def points_with(document: dict[str, Any], points: list[dict[str, Any]]) -> dict[str, Any]:
    """Return a job document with points added to those measured by coordinates.

    Raises:
        FileRefusedError: a name is taken already.
    """
    changed = copy.deepcopy(document)
    listed = changed.setdefault("measurements", {}).setdefault("points", [])
    taken = {each.get("name") for each in listed}
    twice = next((point["name"] for point in points if point["name"] in taken), None)
    if twice is not None:
        message = f"The job has a point {twice} already: rename it in the file, or take it out of the job."
        raise FileRefusedError(message)
    listed += points
    return changed
