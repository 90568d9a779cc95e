"""Hazards of the work itself: lifting, dust, vibration and noise, wet cement."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.method import LiftWay, ToolVerdict
from pavewright.papers._words import amount, day, one, whole
from pavewright.papers.look import decimal, facts, paragraph, points, rest, right, table
from pavewright.papers.method._section import Section, sources
from pavewright.papers.method._words import NOISE, VERDICTS, WORDS
from pavewright.papers.orders import lift_blocks

if TYPE_CHECKING:
    from collections.abc import Iterable

    from pavewright.earthworks import Spread
    from pavewright.method import LiftRate, Method, ToolUse
    from pavewright.papers._figures import PaperFigures
    from pavewright.papers.look import Block
    from pavewright.pipeline import Plan


def lifting(plan: Plan, found: Method, figures: PaperFigures) -> Section:
    """Return what is lifted, how often, and by whom."""
    ways = [each.way for each in found.lifts.things]
    counts = {way: str(ways.count(way)) for way in LiftWay}
    here = WORDS.lifting_here(
        one=counts[LiftWay.ONE], two=counts[LiftWay.TWO], aid=counts[LiftWay.AID], unknown=counts[LiftWay.NOT_KNOWN]
    )
    rate = [paragraph(WORDS.no_rate)] if found.rate is None else [facts(_rate(found.rate))]
    known, unknown = found.figures, ways.count(LiftWay.NOT_KNOWN)
    several = WORDS.ask_weights(count=str(unknown))
    asks = () if not unknown else (WORDS.ask_weight,) if unknown == 1 else (several,)
    blocks = (
        *rate,
        *lift_blocks(plan, found.lifts, known.carry_m, figures),
        points([WORDS.lift_caution]),
        sources(figures, known.lifts_each, known.seldom_lifts_per_h, *(each.less for each in known.often[:1])),
    )
    return Section(WORDS.lifting, here, blocks, asks)


def _rate(rate: LiftRate) -> list[tuple[str, str]]:
    return [
        (
            WORDS.rate_day,
            WORDS.rate(
                day=day(rate.on),
                pieces=whole(rate.pieces),
                kg=whole(rate.kg),
                heaviest=one(rate.heaviest_kg),
                people=str(rate.people),
            ),
        ),
        (WORDS.lifts, _spread(rate.lifts, WORDS.lifts_of.pattern)),
        (WORDS.each_person, f"{whole(rate.per_person_h.result)} = {rate.per_person_h.expression}"),
        (WORDS.at_that_rate, f"{one(rate.one_kg.result)} kg = {rate.one_kg.expression}"),
    ]


def _spread(spread: Spread, pattern: str) -> str:
    return pattern.format(low=whole(spread.low), high=whole(spread.high), likely=whole(spread.likely))


def dust(plan: Plan, found: Method, figures: PaperFigures) -> Section:
    """Return how long the blade is in the stone, with the controls."""
    known, cut = found.figures, found.dust
    control = [
        WORDS.control(mask=f"{known.mask_factor.value:g}"),
        WORDS.limit(
            limit=f"{known.silica_limit_mg_per_m3.value:g}", dry=f"{known.silica_uncontrolled_mg_per_m3.value:g}"
        ),
    ]
    behind = sources(
        figures,
        *(known.saw_m_per_min, known.water_l_per_min, known.mask_factor),
        *(known.silica_limit_mg_per_m3, known.silica_uncontrolled_mg_per_m3),
    )
    if cut is None:
        return Section(WORDS.dust, WORDS.none, (paragraph(WORDS.dust_none), points(control), behind))
    here = WORDS.dust_here(
        cuts=str(cut.cuts), metres=one(cut.saw_m), low=whole(cut.minutes.low), high=whole(cut.minutes.high)
    )
    rows = [
        (WORDS.saw_metres, WORDS.metres(metres=one(cut.saw_m), cuts=str(cut.cuts))),
        (WORDS.blade_time, f"{_spread(cut.minutes, WORDS.minutes.pattern)} = {cut.working.expression}"),
        (WORDS.busiest, _spread(cut.busiest_min, WORDS.minutes.pattern)),
        (WORDS.water, WORDS.litres(litres=whole(cut.water_l), flow=f"{known.water_l_per_min.value:g}")),
    ]
    asks = (WORDS.ask_water,) if plan.job.arrangements.water_on_site is None else ()
    return Section(WORDS.dust, here, (facts(rows), points([WORDS.besides, *control]), behind), asks)


def tools(plan: Plan, found: Method, figures: PaperFigures) -> Section:
    """Return what tools do to hands and ears."""
    known = found.figures
    named = {number: name(plan, each) for number, each in enumerate(found.tools)}
    heads = (
        *(rest(WORDS.tool), right(WORDS.used), decimal(WORDS.shakes), right(WORDS.points)),
        *(right(WORDS.to_action), right(WORDS.to_limit), WORDS.stands),
    )
    loud = (rest(WORDS.tool), decimal(WORDS.loud), decimal(WORDS.day_noise), WORDS.noise_stands)
    blocks: list[Block] = []
    if found.tools:
        rows = [_shaken(named[number], each) for number, each in enumerate(found.tools)]
        heard = [_heard(named[number], each) for number, each in enumerate(found.tools)]
        blocks += [table(heads, rows, type_size=8.5), table(loud, heard, type_size=8.5)]
    action, limit = known.vibration_action_m_per_s2, known.vibration_limit_m_per_s2
    note = WORDS.tools_note(
        action=whole(units.ALL_PERCENT),
        limit=whole(found.limit_points),
        action_m_s2=f"{action.value:g}",
        limit_m_s2=f"{limit.value:g}",
    )
    values = (known.noise_lower_db, known.noise_upper_db, known.noise_limit_db)
    lower, upper, most = (f"{each.value:g}" for each in values)
    total = found.points_together
    said = [note, *([WORDS.together(points=whole(total))] if total is not None else []), WORDS.tools_caution]
    blocks += [points([*said, WORDS.noise_values(lower=lower, upper=upper, limit=most)])]
    blocks += [sources(figures, action, limit, known.noise_lower_db)]
    unknown = sum(each.vibration is ToolVerdict.NOT_KNOWN for each in found.tools)
    many = WORDS.tool_one if len(found.tools) == 1 else WORDS.tools_many(count=str(len(found.tools)))
    here = WORDS.tools_here(tools=many, unknown=str(unknown))
    return Section(WORDS.tools, here, tuple(blocks), tuple(_tool_asks(named, found.tools)))


def name(plan: Plan, tool: ToolUse) -> str:
    """Return what a tool is called."""
    called = tool.kind.value.capitalize()
    if tool.key is None:
        return WORDS.not_listed(tool=called)
    return plan.job.rates.plant[tool.key.number].name or called


def _minutes(tool: ToolUse) -> str:
    if tool.minutes is None:
        return WORDS.ask
    if tool.bound:
        return WORDS.at_most(minutes=whole(tool.minutes.high))
    return f"{whole(tool.minutes.low)} to {whole(tool.minutes.high)}"


def _shaken(called: str, tool: ToolUse) -> tuple[str, ...]:
    scored = tool.points
    span = (
        "ask"
        if scored is None
        else whole(scored.high)
        if tool.bound
        else f"{whole(scored.low)} to {whole(scored.high)}"
    )
    return (
        called,
        _minutes(tool),
        WORDS.ask_short if tool.vibration_m_per_s2 is None else f"{tool.vibration_m_per_s2:g}",
        span,
        WORDS.ask_short if tool.to_action_min is None else whole(tool.to_action_min),
        WORDS.ask_short if tool.to_limit_min is None else whole(tool.to_limit_min),
        VERDICTS[tool.vibration],
    )


def _heard(called: str, tool: ToolUse) -> tuple[str, ...]:
    return (
        called,
        WORDS.ask_short if tool.noise_db is None else f"{tool.noise_db:g}",
        WORDS.ask_short if tool.noise_day_db is None else one(tool.noise_day_db),
        NOISE[tool.noise],
    )


def _tool_asks(named: dict[int, str], used: Iterable[ToolUse]) -> list[str]:
    numbered = list(enumerate(used))
    shaking = [named[number] for number, each in numbered if each.vibration_m_per_s2 is None]
    loud = [named[number] for number, each in numbered if each.noise_db is None]
    timeless = [named[number] for number, each in numbered if each.minutes is None]
    return [
        *([WORDS.ask_vibration(tools=", ".join(shaking))] if shaking else []),
        *([WORDS.ask_noise(tools=", ".join(loud))] if loud else []),
        *([WORDS.ask_minutes(tools=", ".join(timeless))] if timeless else []),
    ]


def cement(_plan: Plan, found: Method, figures: PaperFigures) -> Section:
    """Return what wet cement there is."""
    burns = found.figures.sensitised_percent
    low, high = (f"{each:g}" for each in (burns.low or burns.value, burns.high or burns.value))
    here = WORDS.cement_here(kg=amount(found.cement_kg)) if found.wet_mixes else WORDS.cement_none
    blocks = (points([WORDS.cement_caution(low=low, high=high)]), sources(figures, burns))
    return Section(WORDS.cement, here, blocks)
