"""Which plant which work needs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.cost._keys import TaskKind
from pavewright.job import PlantKind

if TYPE_CHECKING:
    from pavewright.job import Job

_BY_KIND: dict[TaskKind, tuple[PlantKind, ...]] = {
    TaskKind.SET_OUT: (PlantKind.LASER,),
    TaskKind.DIG: (PlantKind.EXCAVATOR, PlantKind.DUMPER, PlantKind.BREAKER, PlantKind.LASER),
    TaskKind.SIDES: (PlantKind.EXCAVATOR,),
    TaskKind.LOAD: (PlantKind.DUMPER,),
    TaskKind.CART: (PlantKind.DUMPER,),
    TaskKind.TOPSOIL_PROVISIONAL: (PlantKind.EXCAVATOR, PlantKind.DUMPER, PlantKind.PLATE),
    TaskKind.BREAK_OUT: (PlantKind.EXCAVATOR, PlantKind.DUMPER, PlantKind.BREAKER),
    TaskKind.DIG_FREE: (),
    TaskKind.FOUND_PIPE: (),
    TaskKind.CARRY_IN: (PlantKind.DUMPER,),
    TaskKind.WALL_TRENCH: (),
    TaskKind.EDGE_TRENCH: (),
    TaskKind.WALL_FOOTING: (PlantKind.MIXER,),
    TaskKind.WALL: (PlantKind.SAW, PlantKind.MIXER),
    TaskKind.GUARD: (),
    TaskKind.FILL: (PlantKind.PLATE, PlantKind.LASER),
    TaskKind.DRAINS: (PlantKind.MIXER,),
    TaskKind.CHANNEL_PIPES: (),
    TaskKind.CHANNEL_FILL: (),
    TaskKind.GULLIES: (PlantKind.MIXER,),
    TaskKind.GULLY_PIPES: (),
    TaskKind.GULLY_FILL: (),
    TaskKind.GRATINGS: (PlantKind.MIXER,),
    TaskKind.FRAMES: (PlantKind.MIXER,),
    TaskKind.PIT_DIG: (PlantKind.EXCAVATOR, PlantKind.DUMPER),
    TaskKind.PIT_LOAD: (PlantKind.DUMPER,),
    TaskKind.PIT_FILL: (),
    TaskKind.SILT_TRAPS: (),
    TaskKind.SUB_BASE: (PlantKind.PLATE, PlantKind.LASER),
    TaskKind.SUB_BASE_LAYER: (PlantKind.PLATE, PlantKind.LASER),
    TaskKind.BASE: (PlantKind.MIXER, PlantKind.LASER),
    TaskKind.EDGES_KERB: (PlantKind.MIXER,),
    TaskKind.EDGES_EDGING: (PlantKind.MIXER,),
    TaskKind.EDGES_HAUNCH: (PlantKind.MIXER,),
    TaskKind.CUT: (PlantKind.SAW, PlantKind.SPLITTER),
    TaskKind.LAY_BORDER: (PlantKind.SAW, PlantKind.MIXER),
    TaskKind.LAY_ZONE: (PlantKind.SAW, PlantKind.MIXER),
    TaskKind.LAY: (PlantKind.SAW, PlantKind.MIXER),
    TaskKind.POINT: (PlantKind.MIXER,),
    TaskKind.STEPS: (PlantKind.SAW, PlantKind.MIXER),
    TaskKind.CLEAR: (),
}
_ON_SAND: dict[TaskKind, tuple[PlantKind, ...]] = {
    TaskKind.LAY_BORDER: (PlantKind.SAW,),
    TaskKind.LAY_ZONE: (PlantKind.SAW,),
    TaskKind.LAY: (PlantKind.SAW,),
    TaskKind.POINT: (PlantKind.PLATE,),
}
"""What differs where units lie on sand: nothing is mixed, and a plate presses units and sand down."""


def plant_for(kind: TaskKind, *, on_sand: bool) -> tuple[PlantKind, ...]:
    """Return the plant that a kind of work needs.

    >>> [each.value for each in plant_for(TaskKind.POINT, on_sand=True)]
    ['plate']
    """
    return _ON_SAND[kind] if on_sand and kind in _ON_SAND else _BY_KIND[kind]


def has_mixer(job: Job) -> bool:
    """Return whether a drum mixer is on the site: on hire, or the crew's own."""
    return job.crew.own_mixer or any(hire.key is PlantKind.MIXER for hire in job.rates.plant)
