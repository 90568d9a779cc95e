"""Weather gates: how cold and how warm it may be for mortar, concrete and joints; sources disagree and stay apart."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright.cost import TaskKind

if TYPE_CHECKING:
    from pavewright.rules import Figure, Rulebook


class Gate(StrEnum):
    """What a limit of temperature holds for."""

    MORTAR_COLD = "mortar_cold"
    CONCRETE_COLD = "concrete_cold"
    JOINT_HOT = "joint_hot"
    CONCRETE_HOT = "concrete_hot"

    @property
    def cold(self) -> bool:
        """Return whether it stops what is too cold, and not what is too warm."""
        return self in {Gate.MORTAR_COLD, Gate.CONCRETE_COLD}


@dataclass(frozen=True, slots=True)
class GateLimits:
    """The limits of one gate, each with its source.

    Attributes:
        gate: What they hold for.
        limits: All of them, the strictest first.
    """

    gate: Gate
    limits: tuple[Figure, ...]

    @property
    def deciding(self) -> Figure:
        """Return the strictest: it decides."""
        return self.limits[0]

    def broken_by(self, temperature_c: float) -> tuple[Figure, ...]:
        """Return the limits that a temperature breaks.

        Args:
            temperature_c: The temperature. [°C]
        """
        if self.gate.cold:
            return tuple(each for each in self.limits if temperature_c < each.value)
        return tuple(each for each in self.limits if temperature_c > each.value)


_MORTAR = frozenset(
    {
        *(TaskKind.LAY, TaskKind.LAY_BORDER, TaskKind.LAY_ZONE, TaskKind.POINT, TaskKind.STEPS, TaskKind.WALL),
        *(TaskKind.GULLIES, TaskKind.GRATINGS, TaskKind.FRAMES, TaskKind.SILT_TRAPS),
    }
)
_CONCRETE = frozenset(
    {
        *(TaskKind.BASE, TaskKind.WALL_FOOTING, TaskKind.EDGES_KERB, TaskKind.EDGES_EDGING),
        *(TaskKind.EDGES_HAUNCH, TaskKind.DRAINS, TaskKind.STEPS),
    }
)
_LAID_ON_THE_BED = frozenset({TaskKind.LAY, TaskKind.LAY_BORDER, TaskKind.LAY_ZONE, TaskKind.POINT})


def gates_of(kind: TaskKind, *, mortar: bool) -> tuple[Gate, ...]:
    """Return the gates of a kind of work; units on sand and joints of sand have none.

    >>> gates_of(TaskKind.POINT, mortar=True)
    (<Gate.MORTAR_COLD: 'mortar_cold'>, <Gate.JOINT_HOT: 'joint_hot'>)
    """
    found = []
    if kind in _MORTAR and (mortar or kind not in _LAID_ON_THE_BED):
        found.append(Gate.MORTAR_COLD)
    if kind in _CONCRETE:
        found += [Gate.CONCRETE_COLD, Gate.CONCRETE_HOT]
    if kind is TaskKind.POINT and mortar:
        found.append(Gate.JOINT_HOT)
    return tuple(found)


def gate_limits(rules: Rulebook, gate: Gate) -> GateLimits:
    """Return the limits of a gate, the strictest first."""
    table = rules.table(f"programme.gate_{gate.value}")
    limits = [table.figure(row.key, "limit_c") for row in table.rows]
    return GateLimits(gate, tuple(sorted(limits, key=lambda each: -each.value if gate.cold else each.value)))
