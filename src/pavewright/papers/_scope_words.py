"""What is done, in words for a customer: a sentence for each thing on the list that the price is made from."""

from __future__ import annotations

from typing import TYPE_CHECKING, assert_never

from pavewright import units
from pavewright.geometry import distance
from pavewright.job import EdgeRestraint, Pattern
from pavewright.papers._words import one, two
from pavewright.quantities import ItemKey, ItemKind, ScopeKind, built_inlets, edge_lengths

if TYPE_CHECKING:
    from pavewright.cost import ScopeLine
    from pavewright.laying import LaidArea
    from pavewright.pipeline import Plan


def scope_words(plan: Plan) -> tuple[str, ...]:
    """Return what is done and priced; what is on the list without any price is shown as not in the price alone."""
    return tuple(_words(line, plan) for line in plan.cost.scope if line.lines)


def _words(line: ScopeLine, plan: Plan) -> str:  # noqa: C901, PLR0911, PLR0912 - one line for each kind of thing
    number = line.key.number
    match line.key.kind:
        case ScopeKind.PAVING:
            return _paving(number, plan)
        case ScopeKind.KERB:
            return f"{_edge(number, EdgeRestraint.KERB, plan)} of kerb set in concrete."
        case ScopeKind.EDGING:
            return f"{_edge(number, EdgeRestraint.EDGING, plan)} of edging set in concrete."
        case ScopeKind.HAUNCH:
            return f"{_edge(number, EdgeRestraint.HAUNCH, plan)} of edge held by a haunch of concrete."
        case ScopeKind.LOW_WALL:
            return _low_wall(number, plan)
        case ScopeKind.GUARD:
            name = plan.survey.site.areas[number].name
            mine = [edge for edge in plan.build_ups.retained if edge.area == name]
            return f"{name}: {one(units.mm_to_m(sum(edge.guarded_mm for edge in mine)))} m of guard at a drop."
        case ScopeKind.STEPS:
            return _steps(number, plan)
        case ScopeKind.CHANNEL:
            channel = plan.survey.site.channels[number]
            length = units.mm_to_m(distance(channel.start, channel.end))
            return f"Drainage: {channel.name}, {one(length)} m of channel{_to(line, plan)}."
        case ScopeKind.GULLY:
            name = plan.job.site.gullies[number].name
            new = line.key in {key for key, _ in built_inlets(plan.water)}
            return (
                f"Drainage: {name}, a new gully{_to(line, plan)}." if new else f"{name}: grating reset to the paving."
            )
        case ScopeKind.COVER:
            return f"{plan.job.site.covers[number].name}: frame reset to the paving."
        case ScopeKind.SOAKAWAY:
            return _soakaway(number, plan)
        case ScopeKind.DIG:
            away = {ItemKey(ItemKind.SPOIL)} <= set(line.lines)
            filled = "topsoil off, filled in layers where the ground lies low"
            dug = f"Dig, {filled}" if plan.earthworks.fill_m3 > plan.earthworks.reused_m3 else "Dig"
            return f"{dug}, and spoil taken away." if away else f"{dug}."
        case ScopeKind.TOPSOIL:
            return _topsoil(plan)
        case ScopeKind.CARRYING:
            return "Materials carried in from where the lorry sets them down."
        case _:
            assert_never(line.key.kind)


def _to(line: ScopeLine, plan: Plan) -> str:
    """Return where an inlet leads, and whether its pipe is in the price."""
    run = next(parts.run for key, parts in built_inlets(plan.water) if key == line.key)
    if run.length_m is None:
        return f" for {run.outfall}, without its pipe" if run.outfall else ", without a pipe"
    return f" with {one(run.length_m)} m of pipe to {run.outfall or 'its outfall'}"


def _edge(number: int, restraint: EdgeRestraint, plan: Plan) -> str:
    area = plan.survey.site.areas[number]
    return f"{area.name}: {one(edge_lengths(area)[restraint])} m"


def _low_wall(number: int, plan: Plan) -> str:
    name = plan.survey.site.areas[number].name
    walls = [edge for edge in plan.build_ups.retained if edge.area == name and edge.wall is not None]
    length = units.mm_to_m(sum(edge.length_mm for edge in walls))
    high = max((edge.drop_mm for edge in walls), default=0.0)
    return f"{name}: {one(length)} m of low retaining wall on a concrete footing, up to {high:.0f} mm above the ground."


def _topsoil(plan: Plan) -> str:
    """Return the provisional sum for topsoil of unknown depth, with its range."""
    known = plan.earthworks.provisional[0].depth_mm
    share, currency = plan.cost.provisional, plan.job.identity.currency
    words = f"Provisional: topsoil taken off and stone in its place, its depth taken as {known.likely:.0f} mm"
    if share is None:
        return f"{words}."
    low, likely, high = (
        units.minor_to_text(each, currency) for each in (share.low_minor, share.likely_minor, share.high_minor)
    )
    return (
        f"{words}. Nobody has measured it: of the price {likely} are for this, {low} at {known.low:.0f} mm and {high} "
        f"at {known.high:.0f} mm, settled by what is found."
    )


def _steps(number: int, plan: Plan) -> str:
    name = plan.job.steps[number].name
    steps = next(each for each in plan.levels.steps if each.name == name)
    width = units.mm_to_m(distance(steps.start, steps.end))
    many = "1 step" if steps.risers == 1 else f"{steps.risers} steps"
    return f"{name}: {many} of {steps.riser_mm:.0f} mm, {two(width)} m wide, on concrete."


def _soakaway(number: int, plan: Plan) -> str:
    name = plan.job.site.outfalls[number].name
    size = next(pit.size for pit in plan.water.pits if pit.outfall == name)
    sides = " × ".join(two(units.mm_to_m(side)) for side in (size.length_mm, size.width_mm, size.depth_mm))
    return f"{name}: a soakaway of {sides} m inside, lined and filled with {size.fill.value.replace('_', ' ')}."


def _units_words(laid: LaidArea) -> str:
    """Return the units of an area in words: all sizes of a mixed pack."""
    return laid.unit if laid.mixed is None else ", ".join(laid.mixed.units)


def _zone_words(laid: LaidArea) -> str:
    """Return the zones of an area in words; nothing where there are none."""
    reported = [f"{zone.name} of {zone.unit} in {Pattern(zone.pattern).traits.words}" for zone in laid.zones]
    return f", with {' and '.join(reported)}" if reported else ""


def _border_words(laid: LaidArea) -> str:
    """Return the border of an area in words; nothing where there is none."""
    if not laid.border_courses:
        return ""
    named = sorted({piece.unit for piece in laid.pieces if piece.border})
    many = "" if laid.border_courses == 1 else f" of {laid.border_courses} courses"
    return f" inside a border{many} of {', '.join(named)}"


def _paving(number: int, plan: Plan) -> str:
    area = plan.levels.areas[number]
    laid = plan.laying.area(area.area)
    layers = [layer.name for layer in plan.build_ups.area(area.area).layers[1:]]
    pattern = Pattern(laid.pattern).traits.words
    return (
        f"{area.area}: {one(laid.paved_m2 + laid.joint_m2)} m² of {_units_words(laid)} in {pattern}"
        f"{_border_words(laid)}{_zone_words(laid)} on {', '.join(layers)}; falls {area.falls_text}."
    )
