"""Old documents brought to the present version, step by step, before they are checked."""

from __future__ import annotations

import copy
from typing import TYPE_CHECKING, Any, NoReturn

from pavewright.job._faults import Fault, JobInvalid

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    Migration = Callable[[dict[str, Any]], dict[str, Any]]

_MIN_AND_MAX: Mapping[str, str] = {
    "least_step_mm": "min_step_mm",
    "most_step_mm": "max_step_mm",
    "joint_least_mm": "joint_min_mm",
    "joint_most_mm": "joint_max_mm",
}
"""Fields of version 1 and what they are called since."""


def _with_min_and_max(document: dict[str, Any]) -> dict[str, Any]:
    """Return a document of version 1 with its smallest and greatest sizes called min and max."""
    renamed: dict[str, Any] = _renamed(document)
    rates = renamed.get("rates")
    changes = rates.get("changes") if isinstance(rates, dict) else None
    for change in changes if isinstance(changes, list) else ():
        if isinstance(change, dict) and change.get("key") == "least_fall":
            change["key"] = "min_fall"
    return renamed


def _renamed(part: Any) -> Any:  # noqa: ANN401 - a document that was not checked yet holds anything
    if isinstance(part, dict):
        return {_MIN_AND_MAX.get(name, name): _renamed(value) for name, value in part.items()}
    return [_renamed(value) for value in part] if isinstance(part, list) else part


_PERCENTS = ("overhead_percent", "margin_percent", "tax_percent")
"""Of version 2: left out, they were zero. Since then what is left out is not known."""
_COUNTED_AS_SOFT = {"by": "the program", "why": "No trial hole was dug: the ground is natural and counts as soft."}


def _with_what_was_meant(document: dict[str, Any]) -> dict[str, Any]:
    """Return a document of version 2 with what it left to the program written down: percents, kinds of walls, soil."""
    meant = copy.deepcopy(document)
    rates = meant.get("rates")
    if isinstance(rates, dict):
        for name in _PERCENTS:
            rates.setdefault(name, 0.0)
    site = meant.setdefault("site", {})
    if isinstance(site, dict):
        _say_whose_walls(site.get("walls"))
        _say_that_soil_is_assumed(site.setdefault("ground", {}))
    return meant


def _say_whose_walls(walls: Any) -> None:  # noqa: ANN401 - the same
    """Write down of what kind a wall was taken to be: a house wall where it has what houses have, else a garden wall."""
    for wall in walls if isinstance(walls, list) else ():
        if isinstance(wall, dict) and wall.get("kind") is None:
            house = wall.get("dpc_level_mm") is not None or wall.get("openings") or wall.get("air_bricks")
            wall["kind"] = "house" if house else "garden"


def _say_that_soil_is_assumed(ground: Any) -> None:  # noqa: ANN401 - the same
    """Write down that soil of which nothing was said counted as soft."""
    if isinstance(ground, dict):
        seen = ground.get("soil", "unknown") != "unknown" or ground.get("cbr_percent") is not None
        if not seen and not ground.get("strata"):
            ground.setdefault("assumed", dict(_COUNTED_AS_SOFT))


MIGRATIONS: Mapping[int, Migration] = {1: _with_min_and_max, 2: _with_what_was_meant}
"""From each old version, what makes the next one of it."""


def migrated(
    document: dict[str, Any], current: int, migrations: Mapping[int, Migration] = MIGRATIONS
) -> dict[str, Any]:
    """Return a document in the present version; the document that was given stays as it is.

    Args:
        document: A document with its version.
        current: The present version.
        migrations: From each old version, what makes the next one of it. Each leaves its input unchanged.

    Raises:
        JobInvalid: its version is missing, is no whole number, is newer than the present one, or no way leads on.
    """
    version = document.get("version")
    if not isinstance(version, int) or isinstance(version, bool):
        _refuse(f"The field version takes a whole number; this program writes {current}.")
    if version > current:
        _refuse(
            f"The document has version {version} and this program reads up to {current}: bring the program up to date."
        )
    while version < current:
        if version not in migrations:
            _refuse(f"The document has version {version}, which no program ever wrote: check the number.")
        version += 1
        document = {**migrations[version - 1](document), "version": version}
    return document


def _refuse(message: str) -> NoReturn:
    raise JobInvalid((Fault("version", message),))
