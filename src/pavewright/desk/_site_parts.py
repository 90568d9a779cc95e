"""Parts of what a phone takes along on site, one for each panel that needs more than the plan: a register."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, TypedDict

from pavewright.desk._plain import plain
from pavewright.desk._site_day import DayOnSite, day_on_site
from pavewright.desk._site_holds import HoldsOnSite, holds_on_site
from pavewright.desk._site_laid import LaidOnSite, laid_on_site
from pavewright.desk._site_laying import LayingOnSite, laying_on_site
from pavewright.desk._site_picture import PictureOnSite, picture_on_site

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from pavewright.pipeline import PlanSoFar
    from pavewright.rules import Rulebook


class SiteParts(TypedDict):
    """Parts by name; None where the plan does not go so far."""

    day: DayOnSite | None
    holds: HoldsOnSite | None
    laid: LaidOnSite | None
    laying: LayingOnSite | None
    picture: PictureOnSite | None


SITE_PARTS: Mapping[str, Callable[[PlanSoFar, Rulebook], object]] = {
    "day": day_on_site,
    "holds": holds_on_site,
    "laid": laid_on_site,
    "laying": laying_on_site,
    "picture": picture_on_site,
}
"""What makes each part of a plan and its rulebook."""


def site_parts(plan: PlanSoFar, rules: Rulebook) -> dict[str, Any]:
    """Return every part as plain values."""
    made = {name: plain(part(plan, rules)) for name, part in SITE_PARTS.items()}
    assert made.keys() == SiteParts.__annotations__.keys()  # noqa: S101 - the scripts have their types from there
    return made
