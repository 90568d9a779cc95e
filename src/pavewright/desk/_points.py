"""Points from a file, as the job document writes them."""

from __future__ import annotations

import copy
from typing import Any

from pavewright.files import FileRefusedError


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
