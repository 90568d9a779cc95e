"""What weather does to a programme: when it ends with its chance, and how long each bay hardens."""

from __future__ import annotations

import calendar
from typing import TYPE_CHECKING

from pavewright.papers._blocks import facts, heading, paragraph, rest, right, table
from pavewright.papers._site_words import WEATHER as SAID
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
        yield heading(SAID.when_work_ends_with)
        yield facts(_chances(found))
        yield paragraph(_caution(found))
    cures = [cure for cure in plan.programme.cures if cure.time.regimes]
    if cures:
        yield heading(SAID.how_long_each_bay)
        yield table(
            (rest("bay"), "from", "to", right("hours"), right("rule"), rest("what decides")),
            [_cure(cure, figures) for cure in cures],
            type_size=8.0,
        )
        yield paragraph(SAID.published_ways_say_how)


def _chances(found: FinishChance) -> list[tuple[str, str]]:
    rows = [(f"{_ALL_PERCENT * each.chance:.0f} of 100", f"by {day(each.on)}") for each in found.ends]
    return [*rows, ("As planned", f"{day(found.planned.on)}: {_ALL_PERCENT * found.planned.chance:.0f} of 100")]


def _caution(found: FinishChance) -> str:
    months = ", ".join(calendar.month_name[each] for each in found.unknown_months)
    gap = SAID.not_all_known_what(months=months) if months else ""
    return SAID.bad_days_as_entered(draws=found.draws, mean_lost_days=one(found.mean_lost_days), gap=gap)


def _cure(cure: BayCure, figures: PaperFigures) -> tuple[str, str, str, str, str, str]:
    time = cure.time
    known = "" if time.known else SAID.not_all_months_have
    return (
        cure.description,
        hour(cure.begins),
        hour(cure.ends),
        whole(time.hours),
        whole(time.rule.value),
        f"{time.deciding.label}: {source(time.deciding, figures)}{known}",
    )
