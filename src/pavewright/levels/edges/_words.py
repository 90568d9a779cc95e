"""Where the water of a surface goes, in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pavewright.levels._types import Draining


def words(found: Draining) -> str:
    """Return a draining in words."""
    past = f"{found.past_m2:.1f} m² run past the drains ({found.past_share:.0%})"
    if found.shut_in_m2 > 0.0:
        return f"{found.shut_in_m2:.1f} m² reach no drain and no free edge"
    if found.to_walls_m > 0.0:
        return f"water runs to {found.to_walls_m:.1f} m of wall with no channel between"
    if found.to_others_m2 > 0.0:
        return f"{found.to_others_m2:.1f} m² run onto the road, the footway or a neighbour's ground"
    if found.standing_l > 0.0:
        return f"{found.standing_l:.1f} l stand up to {found.deepest_mm:.0f} mm deep; {past}"
    return f"nothing stands; {past}" if found.to_drains_m2 > 0.0 else "nothing stands"
