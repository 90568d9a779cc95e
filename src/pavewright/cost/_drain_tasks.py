"""The work of drains, frames and soakaways."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from pavewright.cost._keys import TaskKey, TaskKind
from pavewright.cost._tasks import task
from pavewright.quantities import ScopeKind, built_inlets, built_pits

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.cost._figures import CostFigures
    from pavewright.cost._types import LabourTask
    from pavewright.job import Job
    from pavewright.quantities import ScopeKey
    from pavewright.survey import Survey
    from pavewright.water import DrainParts, SoakawayParts, Water


def drain_tasks(job: Job, survey: Survey, water: Water, figures: CostFigures) -> Iterator[LabourTask]:
    """Give new channels and gullies with their pipes, the resetting of frames, and soakaways; what is filled in, last.

    Pipes and pits lie open until somebody has looked, so that filling is work of its own.
    """
    for scope, parts in built_inlets(water):
        yield from _inlet(job, scope, parts, figures)
    reset = figures.cover_h_each
    new = {scope.number for scope, _ in built_inlets(water) if scope.kind is ScopeKind.GULLY}
    for number, gully in enumerate(job.site.gullies):
        if not gully.fixed and number not in new:
            words = f"Reset the grating of {gully.name}"
            yield task(job, TaskKey(TaskKind.GRATINGS, None, number), words, 1.0, "grating", reset)
    placed = {each.cover.name for each in survey.site.covers}
    for number, cover in enumerate(job.site.covers):
        if not cover.fixed and cover.name in placed:
            words = f"Reset the frame of {cover.name}"
            yield task(job, TaskKey(TaskKind.FRAMES, None, number), words, 1.0, "frame", reset)
    for number, pit in built_pits(job, water):
        yield from _soakaway(job, number, pit, figures)
    yield from _filling(job, water, figures)


def _inlet(job: Job, scope: ScopeKey, parts: DrainParts, figures: CostFigures) -> Iterator[LabourTask]:
    channel = scope.kind is ScopeKind.CHANNEL
    if channel:
        out = figures.channel_h_per_m
        key = TaskKey(TaskKind.DRAINS, None, scope.number)
        yield task(job, key, f"Set {parts.name}", parts.channel_m, "m", out)
    else:
        out = figures.gully_h_each
        key = TaskKey(TaskKind.GULLIES, None, scope.number)
        yield task(job, key, f"Set {parts.name}", float(parts.pots), "gully", out)
    if parts.run.length_m is not None:
        key = TaskKey(TaskKind.CHANNEL_PIPES if channel else TaskKind.GULLY_PIPES, None, scope.number)
        words = f"Trench and pipe from {parts.name} to {parts.run.outfall or 'its outfall'}"
        yield _pipe(job, key, words, parts.run.length_m, 1.0 - figures.pipe_fill_share.value, figures)


def _pipe(job: Job, key: TaskKey, words: str, length_m: float, share: float, figures: CostFigures) -> LabourTask:
    """Return a part of the work of a pipe."""
    found = task(job, key, words, length_m, "m", figures.pipe_h_per_m, share)
    return replace(found, working=replace(found.working, figures=(figures.pipe_h_per_m, figures.pipe_fill_share)))


def _filling(job: Job, water: Water, figures: CostFigures) -> Iterator[LabourTask]:
    """Give the filling of trenches and pits, when what lies in them has been looked at."""
    for scope, parts in built_inlets(water):
        if parts.run.length_m is not None:
            kind = TaskKind.CHANNEL_FILL if scope.kind is ScopeKind.CHANNEL else TaskKind.GULLY_FILL
            words = f"Fill the trench of the pipe from {parts.name}"
            key = TaskKey(kind, None, scope.number)
            yield _pipe(job, key, words, parts.run.length_m, figures.pipe_fill_share.value, figures)
    for number, pit in built_pits(job, water):
        words = f"Line and fill {pit.outfall}"
        yield task(job, TaskKey(TaskKind.PIT_FILL, None, number), words, pit.dig_m3, "m³", figures.pit_fill_h_per_m3)


def _soakaway(job: Job, number: int, pit: SoakawayParts, figures: CostFigures) -> Iterator[LabourTask]:
    machine = job.crew.machine_dig
    dig = figures.dig_by_machine_h_per_m3 if machine else figures.dig_by_hand_h_per_m3
    yield task(job, TaskKey(TaskKind.PIT_DIG, None, number), f"Dig {pit.outfall}", pit.dig_m3, "m³", dig)
    if not machine:
        load = figures.load_by_hand_h_per_m3
        yield task(
            job, TaskKey(TaskKind.PIT_LOAD, None, number), f"Load spoil of {pit.outfall}", pit.dig_m3, "m³", load
        )
    if pit.silt_traps:
        trap = figures.silt_trap_h_each
        key = TaskKey(TaskKind.SILT_TRAPS, None, number)
        yield task(job, key, f"Set the silt trap of {pit.outfall}", float(pit.silt_traps), "trap", trap)
