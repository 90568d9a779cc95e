"""What is written over the paving at a door on a section."""

from __future__ import annotations

from pavewright.drawing._type import wrapped

_TYPE_MM = 2.9
_STEP_WIDE_MM = 84.0
"""Height of the type, and room for what is said of the step, on paper. [mm]"""


def door_lines(door: str, step: str) -> list[str]:
    """Return what is written over the paving at a door: its name and the step down.

    Args:
        door: Its name.
        step: What to say of the step down.
    """
    return [door, *wrapped(step, _STEP_WIDE_MM, _TYPE_MM)]
