"""What each task and each priced line is called inside the program: never a word that somebody typed."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright.quantities import ItemKey

if TYPE_CHECKING:
    from pavewright.job import PlantKind


class LineGroup(StrEnum):
    """What money is paid for."""

    LABOUR = "labour"
    PLANT = "plant"
    DISPOSAL = "disposal"
    PROVISIONAL = "provisional"
    MATERIAL = "material"


class TaskKind(StrEnum):
    """Kind of work."""

    SET_OUT = "set_out"
    DIG = "dig"
    SIDES = "sides"
    LOAD = "load"
    CART = "cart"
    TOPSOIL_PROVISIONAL = "topsoil_provisional"
    CARRY_IN = "carry_in"
    WALL_TRENCH = "wall_trench"
    WALL_FOOTING = "wall_footing"
    WALL = "wall"
    GUARD = "guard"
    FILL = "fill"
    DRAINS = "drains"
    CHANNEL_PIPES = "channel_pipes"
    GULLIES = "gullies"
    GULLY_PIPES = "gully_pipes"
    GRATINGS = "gratings"
    FRAMES = "frames"
    PIT_DIG = "pit_dig"
    PIT_LOAD = "pit_load"
    PIT_FILL = "pit_fill"
    SILT_TRAPS = "silt_traps"
    SUB_BASE = "sub_base"
    BASE = "base"
    EDGES_KERB = "edges_kerb"
    EDGES_EDGING = "edges_edging"
    EDGES_HAUNCH = "edges_haunch"
    CUT = "cut"
    LAY_BORDER = "lay_border"
    LAY_ZONE = "lay_zone"
    LAY = "lay"
    POINT = "point"
    STEPS = "steps"
    CLEAR = "clear"


@dataclass(frozen=True, slots=True)
class TaskKey:
    """Key of a task.

    Attributes:
        kind: Kind of work.
        area: Place of its area in the job, from 0; None for work on the whole site.
        number: Which of several of one kind in one area, from 0; the place in the job of a flight of steps, a channel,
            a gully, a cover or the outfall of a soakaway.
    """

    kind: TaskKind
    area: int | None = None
    number: int = 0

    @property
    def text(self) -> str:
        """Its name for files and pages; no two keys share one.

        >>> TaskKey(TaskKind.LAY, 0).text, TaskKey(TaskKind.STEPS, 1, 2).text, TaskKey(TaskKind.DRAINS).text
        ('lay.area1', 'steps.area2.no3', 'drains')
        """
        parts = [self.kind.value]
        if self.area is not None:
            parts.append(f"area{self.area + 1}")
        if self.number:
            parts.append(f"no{self.number + 1}")
        return ".".join(parts)


@dataclass(frozen=True, slots=True)
class HireKey:
    """Key of a machine or tool on hire.

    Attributes:
        kind: Kind of plant.
        number: Place of the hire in the rates, from 0.
    """

    kind: PlantKind
    number: int

    @property
    def text(self) -> str:
        """Its name for files and pages.

        >>> from pavewright.job import PlantKind
        >>> HireKey(PlantKind.MIXER, 0).text
        'hire.mixer.1'
        """
        return f"hire.{self.kind.value}.{self.number + 1}"


LineKey = TaskKey | HireKey | ItemKey
"""Key of a priced line: its task, its hire, or the item that is bought or taken away."""
