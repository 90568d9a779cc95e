"""What drains, soakaways and steps are put together from."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.earthworks import Spread, loads, loose, mass, soil_figures
from pavewright.findings import Finding, Severity
from pavewright.job import GullyState, MaterialKind, OutfallKind
from pavewright.quantities import _words as words
from pavewright.quantities._codes import Code
from pavewright.quantities._dimensions import Dimension, Drawn
from pavewright.quantities._keys import ItemKind, Measure
from pavewright.quantities._measure import channel_m
from pavewright.quantities._scope import Gap, GapReason, ScopeKey, ScopeKind
from pavewright.quantities._types import PitSpoil
from pavewright.sums import Working
from pavewright.water import DrainKind, DrainState, pipe_bed_m3_per_m, water_figures

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from pavewright.earthworks import Earthworks
    from pavewright.job import Job
    from pavewright.levels import Levels
    from pavewright.quantities._figures import QuantityFigures
    from pavewright.quantities._flights import FlightParts
    from pavewright.quantities._materials import Materials
    from pavewright.rules import Rulebook
    from pavewright.survey import Survey
    from pavewright.water import DrainParts, PipeRun, SoakawayParts, Water


def built_pits(job: Job, water: Water) -> tuple[tuple[int, SoakawayParts], ...]:
    """Return the soakaways that the job builds, each with its place among the outfalls."""
    numbers = {outfall.name: number for number, outfall in enumerate(job.site.outfalls)}
    found = [(numbers[pit.outfall], pit) for pit in water.pits]
    return tuple(each for each in found if job.site.outfalls[each[0]].state is not GullyState.EXISTING)


def built_inlets(water: Water) -> tuple[tuple[ScopeKey, DrainParts], ...]:
    """Return the gullies and channels that the job builds, each with what it is in the scope."""
    counted = {DrainKind.GULLY: 0, DrainKind.CHANNEL: 0}
    found = []
    for parts in water.inlets:
        found.append((ScopeKey(_SCOPE[parts.kind], counted[parts.kind]), parts))
        counted[parts.kind] += 1
    return tuple(each for each in found if each[1].state is not DrainState.EXISTING)


_SCOPE = {DrainKind.GULLY: ScopeKind.GULLY, DrainKind.CHANNEL: ScopeKind.CHANNEL}


def gather_drains(materials: Materials, job: Job, survey: Survey, water: Water, bed_m3_per_m: float) -> None:
    """Add what gullies, channels, their pipes and soakaways take."""
    for scope, parts in built_inlets(water):
        materials.serve(scope)
        if parts.kind is DrainKind.CHANNEL:
            _channel(
                materials, parts, survey.site.channels[scope.number].name, channel_m(survey.site.channels[scope.number])
            )
        else:
            _gully(materials, parts)
        if parts.run.length_m is not None:
            _pipe(materials, parts.run, parts.run.length_m, bed_m3_per_m)
    for number, pit in built_pits(job, water):
        materials.serve(ScopeKey(ScopeKind.SOAKAWAY, number))
        _soakaway(materials, pit)


def _channel(materials: Materials, parts: DrainParts, name: str, length_m: float) -> None:
    lines = (Dimension(name, Drawn.WATER, materials.serves, length_m=length_m),)
    need = materials.need(MaterialKind.CHANNEL, Measure.METRE)
    need.add(name, length_m, materials.figures.edging_percent, lines=lines)
    each = materials.figures.channel_concrete_m3_per_m
    said = f"{name}: {length_m:.2f} m × {each.value:g} m³/m"
    materials.concrete(ItemKind.EDGE_CONCRETE, said, length_m * each.value, lines)
    materials.need(MaterialKind.CHANNEL_END, Measure.EACH).count(f"{name}: closed ends", float(parts.end_caps))
    materials.need(MaterialKind.CHANNEL_OUTLET, Measure.EACH).count(f"{name}: outlet", 1.0)


def _gully(materials: Materials, parts: DrainParts) -> None:
    materials.need(MaterialKind.GULLY, Measure.EACH).count(f"{parts.name}: trapped pot", float(parts.pots))
    materials.need(MaterialKind.GRATING, Measure.EACH).count(
        f"{parts.name}: grating of {parts.grating_mm:g} mm with its frame", float(parts.gratings)
    )
    each = materials.figures.gully_concrete_m3_each
    materials.concrete(
        ItemKind.EDGE_CONCRETE, f"{parts.name}: {each.value:g} m³ round the pot", parts.pots * each.value
    )


def _pipe(materials: Materials, run: PipeRun, length_m: float, bed_m3_per_m: float) -> None:
    """Add solid pipe, its bends and the gravel round it."""
    lost = materials.figures.edging_percent
    said = f"{run.name} to {run.outfall or 'no outfall'}: {length_m:.2f} m"
    lines = (Dimension(f"{run.name}: pipe", Drawn.WATER, materials.serves, length_m=length_m),)
    materials.need(MaterialKind.PIPE, Measure.METRE).add(said, length_m, lost, lines=lines)
    bends = materials.figures.bends_per_run
    materials.need(MaterialKind.PIPE_BEND, Measure.EACH).count(f"{run.name}: bends of a run", bends.value, (bends,))
    density = materials.figures.pipe_gravel_kg_per_m3
    materials.need(MaterialKind.PIPE_GRAVEL, Measure.KG).add(
        f"{said} × {bed_m3_per_m:.3f} m³/m × {density.value:g} kg/m³",
        length_m * bed_m3_per_m * density.value,
        materials.figures.aggregate_percent,
        (density,),
        lines=lines,
    )


def _soakaway(materials: Materials, pit: SoakawayParts) -> None:
    if pit.stone_t:
        materials.need(MaterialKind.SOAKAWAY_STONE, Measure.KG).add(
            f"{pit.outfall}: {pit.stone_m3:.3f} m³ of clean stone",
            units.KG_PER_TONNE * pit.stone_t,
            materials.figures.aggregate_percent,
        )
    if pit.crates_m3:
        materials.need(MaterialKind.SOAKAWAY_CRATES, Measure.M3).count(f"{pit.outfall}: crates", pit.crates_m3)
    if pit.perforated_pipe_m:
        lost = materials.figures.edging_percent
        materials.need(MaterialKind.PERFORATED_PIPE, Measure.METRE).add(pit.outfall, pit.perforated_pipe_m, lost)
    materials.need(MaterialKind.GEOTEXTILE, Measure.M2).count(f"{pit.outfall}: round it, lapped", pit.geotextile_m2)
    materials.need(MaterialKind.SILT_TRAP, Measure.EACH).count(
        f"{pit.outfall}: before its inlet", float(pit.silt_traps)
    )


def gather_steps(materials: Materials, job: Job, flights: Sequence[FlightParts], levels: Levels) -> None:
    """Add what flights of steps take: units of riser and tread, a foundation, a core of concrete, mortar."""
    numbers = {entered.name: number for number, entered in enumerate(job.steps)}
    for steps, parts in zip(levels.steps, flights, strict=True):
        materials.serve(ScopeKey(ScopeKind.STEPS, numbers[steps.name]))
        said = f"{steps.name}: {steps.risers} risers × {parts.width_m:.2f} m"
        along = Dimension(steps.name, Drawn.STEPS, materials.serves, times=float(steps.risers), length_m=parts.width_m)
        need = materials.need(MaterialKind.STEP_UNIT, Measure.METRE)
        need.add(said, parts.units_m, materials.figures.edging_percent, lines=(along,))
        room = f", in the room of units and bed {parts.room_m3:.3f} m³" if parts.room_m3 else ""
        materials.concrete(
            ItemKind.STEP_CONCRETE,
            f"{steps.name}: foundation {parts.width_m:.2f} m × {parts.foundation_wide_mm:g} × "
            f"{parts.foundation_thick_mm:g} mm, core {parts.core_m3:.3f} m³{room}",
            parts.concrete_m3,
            _step_concrete(parts, materials.serves),
        )
        mortar = materials.figures.step_mortar_m3_per_m
        materials.mortar(
            ItemKind.MORTAR_BED,
            f"{said} × {mortar.value:g} m³/m",
            parts.mortar_m3,
            materials.figures.bed_sand_parts,
            MaterialKind.SHARP_SAND,
            (along,),
        )


def _step_concrete(parts: FlightParts, scope: ScopeKey) -> tuple[Dimension, ...]:
    """Return the concrete of a flight: foundation by its section, core and the room of units and bed whole."""
    foundation = Dimension(
        f"{parts.steps}: foundation",
        Drawn.STEPS,
        scope,
        length_m=parts.width_m,
        width_m=units.mm_to_m(parts.foundation_wide_mm),
        depth_m=units.mm_to_m(parts.foundation_thick_mm),
    )
    core = Dimension(f"{parts.steps}: core under the treads", Drawn.STEPS, scope, volume_m3=parts.core_m3)
    room = Dimension(f"{parts.steps}: room of units and bed below", Drawn.STEPS, scope, volume_m3=parts.room_m3)
    return tuple(line for line in (foundation, core, room) if line.volume_m3 != 0.0)


def pit_spoil(job: Job, earthworks: Earthworks, water: Water, rules: Rulebook) -> PitSpoil | None:
    """Return what leaves of soakaways and of the gravel of drains, loads over those of the dig; the rest goes back."""
    parts = _solid(job, water, pipe_bed_m3_per_m(water_figures(rules)))
    solid = sum(each for _, _, each in parts)
    if solid <= 0.0:
        return None
    own, soils = {job.site.ground.soil: solid}, soil_figures(rules)
    volume, volume_workings = loose(own, soils)
    tonnes, mass_workings = mass(own, soils)
    workings = (*volume_workings, *mass_workings)
    if job.rates.disposal is None:
        return PitSpoil(volume, None, tonnes, workings, parts)
    if not earthworks.areas or earthworks.loads is None:
        count, behind = loads(volume, tonnes, job.rates.disposal)
        return PitSpoil(volume, count, tonnes, (*workings, behind), parts)
    both, behind = loads(_both(volume, earthworks.loose_m3), _both(tonnes, earthworks.tonnes), job.rates.disposal)
    dug = earthworks.loads
    more = Spread(*(max(a - b, 0.0) for a, b in zip(_ends(both), _ends(dug), strict=True)))
    said = f"{behind.expression} with the dig, less {dug.likely:g} of the dig"
    last = Working(said, more.likely, "loads", behind.figures, behind.note)
    return PitSpoil(volume, more, tonnes, (*workings, last), parts)


def _solid(job: Job, water: Water, bed_m3_per_m: float) -> tuple[tuple[str, ScopeKey, float], ...]:
    """Return what leaves in the ground, part by part: holes, less the ground put back over them, gravel of drains."""
    found = []
    for number, pit in built_pits(job, water):
        scope = ScopeKey(ScopeKind.SOAKAWAY, number)
        over = units.mm3_to_m3(pit.size.length_mm * pit.size.width_mm * pit.size.cover_mm)
        found += [(f"{pit.outfall}: its hole", scope, pit.dig_m3), (f"{pit.outfall}: put back over it", scope, -over)]
    for scope, parts in built_inlets(water):
        length = parts.run.length_m or 0.0
        found.append((f"{parts.name}: trench taken by gravel, {length:.2f} m", scope, length * bed_m3_per_m))
    return tuple(each for each in found if each[2])


def _both(one: Spread, other: Spread) -> Spread:
    return Spread(*(a + b for a, b in zip(_ends(one), _ends(other), strict=True)))


def _ends(spread: Spread) -> tuple[float, float, float]:
    return spread.low, spread.likely, spread.high


def deep_pits(job: Job, water: Water, figures: QuantityFigures) -> Iterator[Finding]:
    """Give soakaways whose hole is so deep that its sides have to be looked at."""
    limit = figures.deep_dig_mm
    for _, pit in built_pits(job, water):
        deep = pit.size.cover_mm + pit.size.depth_mm
        if deep > limit.value:
            said, options = words.deep_pit(pit.outfall, deep)
            place, most = f"outfall {pit.outfall}", limit.value
            yield Finding(Code.DEEP_PIT, Severity.CHECK, place, said, deep, most, "mm", limit, options=options)


def taken_as_new(water: Water) -> Iterator[Finding]:
    """Give channels of which nobody said whether they are there already: they are priced as new."""
    for scope, parts in built_inlets(water):
        if parts.state is DrainState.NOT_KNOWN:
            said, options = words.taken_as_new(parts.name)
            yield Finding(Code.TAKEN_AS_NEW, Severity.NOTE, f"{scope.kind.value} {parts.name}", said, options=options)


def drain_gaps(job: Job, water: Water) -> Iterator[Gap]:
    """Give what drains take and nobody could measure: runs of pipe, and soakaways without a size."""
    for scope, parts in built_inlets(water):
        if parts.run.length_m is None:
            to = f"to {parts.run.outfall}" if parts.run.outfall else "to an outfall that is not named"
            yield Gap((scope,), GapReason.NOT_KNOWN, f"Pipe from {parts.name} {to}: its length is not known")
    sized = {pit.outfall for pit in water.pits}
    used = {parts.run.outfall for parts in water.inlets}
    for number, outfall in enumerate(job.site.outfalls):
        if outfall.kind is not OutfallKind.SOAKAWAY or outfall.state is GullyState.EXISTING or outfall.name in sized:
            continue
        if outfall.name in used or outfall.state is GullyState.NEW or outfall.soakaway is not None:
            what = f"{outfall.name}: a soakaway without a size; whether it is there already is not said"
            if outfall.state is GullyState.NEW:
                what = f"{outfall.name}: a new soakaway without a size"
            yield Gap((ScopeKey(ScopeKind.SOAKAWAY, number),), GapReason.NOT_KNOWN, what)
