"""What the ground about the paving may take and is not in the price: banks above, and ground that nobody read."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.buildup import OpenKind
from pavewright.quantities._scope import Gap, GapReason, ScopeKey, ScopeKind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.buildup import BuildUps
    from pavewright.survey import Survey


def ground_gaps(survey: Survey, build_ups: BuildUps) -> Iterator[Gap]:
    """Give what holds banks over the paving, and what edges may take beyond which nobody read the ground."""
    for number, area in enumerate(survey.site.areas):
        scope = (ScopeKey(ScopeKind.LOW_WALL, number),)
        mine = [each for each in build_ups.open_edges if each.area == area.name]
        for bank in mine:
            if bank.kind is OpenKind.BANK_ABOVE:
                stands = bank.stands_mm or 0.0
                words = (
                    f"{area.name}, side {bank.side}: what holds the ground that stands up to {stands:.0f} "
                    f"mm over the paving along {units.mm_to_m(bank.length_mm):.1f} m, or the bank that it is cut to"
                )
                yield Gap(scope, GapReason.NOT_MEASURED, words)
        unread = [each for each in mine if each.kind is OpenKind.GROUND_UNKNOWN]
        if unread:
            named = ", ".join(f"{each.side} ({units.mm_to_m(each.length_mm):.1f} m)" for each in unread)
            words = (
                f"{area.name}: what the edge may take at {named}, a wall or a bank; the level of the ground beyond is "
                f"not known"
            )
            yield Gap(scope, GapReason.NOT_KNOWN, words)
