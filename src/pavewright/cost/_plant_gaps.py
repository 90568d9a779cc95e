"""Plant not in the price: a day has no price, nobody knows the days, or the work needs it and none is entered."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.cost._keys import TaskKind
from pavewright.cost._scope import scope_of
from pavewright.job import PlantKind, UnitKind
from pavewright.laying import PieceKind
from pavewright.quantities import Gap, GapReason, in_reading_order

if TYPE_CHECKING:
    from collections.abc import Iterable

    from pavewright.cost._types import Hire, LabourTask
    from pavewright.job import Job, PavingUnit
    from pavewright.laying import LaidArea, LayingPlan, Piece


def plant_gaps(job: Job, hires: tuple[Hire, ...], tasks: tuple[LabourTask, ...], laying: LayingPlan) -> list[Gap]:
    """Return machines as not in the price; the firm's own are asked for no price."""
    hired = {hire.key.number: hire for hire in hires}
    found = []
    for number, entry in enumerate(job.rates.plant):
        if entry.owned and entry.day_price_minor is None:
            continue
        name = entry.name or entry.key.value.capitalize()
        using = [task for task in tasks if entry.key in task.plant]
        if number not in hired:
            days = "the days at work" if entry.owned else "the days on hire"
            found.append(_gap(using, GapReason.NOT_KNOWN, f"{name}: {days}"))
        elif entry.day_price_minor is None and hired[number].days:
            found.append(_gap(using, GapReason.NO_PRICE, f"{name}: {hired[number].days:g} days on hire"))
    return [*found, *_none_entered(job, tasks, laying)]


def _gap(tasks: Iterable[LabourTask], reason: GapReason, words: str) -> Gap:
    return Gap(in_reading_order(frozenset(scope_of(task.key) for task in tasks)), reason, words)


def _none_entered(job: Job, tasks: tuple[LabourTask, ...], laying: LayingPlan) -> list[Gap]:
    """Return what work cannot do without and nobody entered: not on hire, and not said to be the firm's own."""
    there = {each.key for each in job.rates.plant}
    found = []
    dug = [task for task in tasks if PlantKind.EXCAVATOR in task.plant]
    if job.crew.machine_dig and dug and PlantKind.EXCAVATOR not in there:
        found.append(_gap(dug, GapReason.NOT_KNOWN, f"Excavator: the dig is by machine and {_ENTER}"))
    pressed = [task for task in tasks if PlantKind.PLATE in task.plant]
    if pressed and PlantKind.PLATE not in there:
        found.append(_gap(pressed, GapReason.NOT_KNOWN, f"Plate compactor: layers are compacted and {_ENTER}"))
    return [*found, *_no_saw(job, tasks, laying, there)]


_ENTER = "none is entered; enter the one on hire, or say that it is your own"


def _no_saw(job: Job, tasks: tuple[LabourTask, ...], laying: LayingPlan, there: set[PlantKind]) -> list[Gap]:
    """Return the saw where cuts need one, and a splitter or a saw where either does it."""
    if PlantKind.SAW in there:
        return []
    cuts = [task for task in tasks if task.key.kind is TaskKind.CUT and task.key.area is not None]
    sawn = [task for task in cuts if _needs_saw(job, laying.area(job.areas[task.key.area or 0].name))]
    if sawn:
        return [_gap(sawn, GapReason.NOT_KNOWN, f"Saw: units are cut that a splitter cannot split, and {_ENTER}")]
    if cuts and PlantKind.SPLITTER not in there:
        return [_gap(cuts, GapReason.NOT_KNOWN, f"Splitter or saw: blocks are cut and {_ENTER}")]
    return []


def _needs_saw(job: Job, laid: LaidArea) -> bool:
    """Return whether an area has a cut that no splitter can do."""
    units = {each.name: each for each in job.units}
    return any(piece.kind is PieceKind.CUT and not _splits(piece, units.get(piece.unit)) for piece in laid.pieces)


def _splits(piece: Piece, unit: PavingUnit | None) -> bool:
    """Return whether a splitter makes a piece: a straight cut right across a block or a sett, and no sliver of it.

    A slab breaks beside the line, dense stone and porcelain break anywhere, and a notch or a curve has no line right
    across. Common practice.
    """
    if unit is None or unit.kind is UnitKind.FLAG or unit.low_absorption:
        return False
    return not (piece.notched or piece.curved or piece.sliver)
