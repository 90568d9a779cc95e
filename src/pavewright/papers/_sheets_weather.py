"""What weather does to a programme: when it ends with its chance, and how long each bay hardens."""

from __future__ import annotations

import calendar
from typing import TYPE_CHECKING

from pavewright.papers._blocks import facts, heading, paragraph, rest, right, table
from pavewright.papers._words import day, hour, one, source, whole

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.papers._blocks import Block
    from pavewright.papers._figures import PaperFigures
    from pavewright.pipeline import Plan
    from pavewright.programme import BayCure, FinishChance

_ALL_PERCENT = 100.0


def weather_blocks(plan: Plan, figures: PaperFigures) -> Iterator[Block]:
    """Give the finish with its chance, and the clocks of the bays; nothing where no weather is known."""
    found = plan.programme.chance
    if found is not None:
        yield heading("When the work ends, with its chance")
        yield facts(_chances(found))
        yield paragraph(_caution(found))
    cures = [cure for cure in plan.programme.cures if cure.time.regimes]
    if cures:
        yield heading("How long each bay hardens")
        yield table(
            (rest("bay"), "from", "to", right("hours"), right("rule"), rest("what decides")),
            [_cure(cure, figures) for cure in cures],
            type_size=8.0,
        )
        yield paragraph(
            "Published ways to say how quickly cement hardens disagree: the longest decides, and nothing is shorter "
            "than the rule. Temperatures are means as entered: read a thermometer before you load a slab."
        )


def _chances(found: FinishChance) -> list[tuple[str, str]]:
    rows = [(f"{_ALL_PERCENT * each.chance:.0f} of 100", f"by {day(each.on)}") for each in found.ends]
    return [*rows, ("As planned", f"{day(found.planned.on)}: {_ALL_PERCENT * found.planned.chance:.0f} of 100")]


def _caution(found: FinishChance) -> str:
    months = ", ".join(calendar.month_name[each] for each in found.unknown_months)
    gap = f" Not all is known of {months}: what is not known stops no day here." if months else ""
    return (
        f"Bad days as entered by month, outputs within their ranges, the order of work kept: {found.draws} draws; "
        f"{one(found.mean_lost_days)} working days lost in the mean.{gap} A chance of 90 is no promise."
    )


def _cure(cure: BayCure, figures: PaperFigures) -> tuple[str, str, str, str, str, str]:
    time = cure.time
    known = "" if time.known else "; not all months have a temperature"
    return (
        cure.description,
        hour(cure.begins),
        hour(cure.ends),
        whole(time.hours),
        whole(time.rule.value),
        f"{time.deciding.label}: {source(time.deciding, figures)}{known}",
    )
