"""What each task and each priced line is called inside the program: never a word that somebody typed."""

from __future__ import annotations

from enum import StrEnum

from pavewright.job import PlantKind
from pavewright.quantities import ItemKey, NumberedKey, PlacedKey


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
    BREAK_OUT = "break_out"
    DIG_FREE = "dig_free"
    FOUND_PIPE = "found_pipe"
    CARRY_IN = "carry_in"
    WALL_TRENCH = "wall_trench"
    EDGE_TRENCH = "edge_trench"
    WALL_FOOTING = "wall_footing"
    WALL = "wall"
    GUARD = "guard"
    FILL = "fill"
    DRAINS = "drains"
    CHANNEL_PIPES = "channel_pipes"
    CHANNEL_FILL = "channel_fill"
    GULLIES = "gullies"
    GULLY_PIPES = "gully_pipes"
    GULLY_FILL = "gully_fill"
    GRATINGS = "gratings"
    FRAMES = "frames"
    PIT_DIG = "pit_dig"
    PIT_LOAD = "pit_load"
    PIT_FILL = "pit_fill"
    SILT_TRAPS = "silt_traps"
    SUB_BASE = "sub_base"
    SUB_BASE_LAYER = "sub_base_layer"
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


class TaskKey(PlacedKey[TaskKind]):
    """Key of a task.

    Its number is which of several of one kind in one area, or the place in the job of a flight of steps, a channel, a
    gully, a cover, the outfall of a soakaway or what the dig found, from 0.

    >>> TaskKey(TaskKind.LAY, 0).text, TaskKey(TaskKind.STEPS, 1, 2).text, TaskKey(TaskKind.DRAINS).text
    ('lay.area1', 'steps.area2.no3', 'drains')
    """

    __slots__ = ()

    @property
    def priced(self) -> TaskKey:
        """The task with the hours and the price: a layer of stone is a part of the work on all of it.

        >>> TaskKey(TaskKind.SUB_BASE_LAYER, 0, 1).priced.text
        'sub_base.area1'
        """
        return TaskKey(TaskKind.SUB_BASE, self.area) if self.kind is TaskKind.SUB_BASE_LAYER else self


class HireKey(NumberedKey[PlantKind]):
    """Key of a machine or tool on hire; its number is the place of the hire in the rates, from 0.

    >>> from pavewright.job import PlantKind
    >>> HireKey(PlantKind.MIXER, 0).text
    'hire.mixer.1'
    """

    __slots__ = ()
    BEFORE = "hire."


class ChargeKind(StrEnum):
    """What is charged beside work, days on hire and things that are bought."""

    HIRE_WEEKS = "hire_weeks"
    HIRE_DELIVERY = "hire_delivery"
    PRIME_COST = "prime_cost"
    ATTENDANCE = "attendance"
    PROVISIONAL = "provisional"
    CARRIAGE = "carriage"


class ChargeKey(NumberedKey[ChargeKind]):
    """Key of a charge.

    Its number is the place in the job of the hire, the prime-cost item or the provisional rate, or that of the order
    among all orders.

    >>> ChargeKey(ChargeKind.PRIME_COST, 1).text
    'charge.prime_cost.2'
    """

    __slots__ = ()
    BEFORE = "charge."


LineKey = TaskKey | HireKey | ItemKey | ChargeKey
"""Key of a priced line: its task, its hire, the item that is bought or carted away, or the charge."""
