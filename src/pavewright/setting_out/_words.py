"""The sentences of the findings on setting out, in one place."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units

if TYPE_CHECKING:
    from collections.abc import Iterable

    from pavewright.setting_out._types import HouseInTheWay, Peg, StringLine


def no_base_line(area: str, side: str) -> str:
    """Say that no base line could be found beside the dig."""
    return (
        f"No line beside the dig of {area} has room for two pegs that stay. The base line runs along {side} and is dug "
        f"away: measure its corners again from two fixed marks on walls after the dig."
    )


def corner_not_taped(area: str, corners: Iterable[str], houses: Iterable[HouseInTheWay]) -> str:
    """Name the corners that no two tapes fix."""
    house = "".join(f" {each.words}" for each in houses)
    return (
        f"No two tapes that can be pulled straight fix {', '.join(corners)} of {area}: something stands in the way, or "
        "they would cross too flat. Set out there by the distance along the base line and square off it, and prove "
        f"it with the sides.{house}"
    )


def string_end_in_dig(area: str, pegs: Iterable[Peg]) -> str:
    """Name the pegs inside the dig at which strings end."""
    return (
        f"Strings of {area} end at {', '.join(each.name for each in pegs)} inside the dig, where no pin can be driven "
        "past them. Set these again from the base line after the dig."
    )


def string_sags(string: StringLine) -> str:
    """Say that a string is too long to hang straight."""
    length = f"{units.metres_text(string.length_mm)} m"
    return f"String {string.name} is {length} long and will sag: put a peg under its middle."


def peg_near_service(pegs: list[Peg], clear_mm: float, service: str) -> str:
    """Name the pegs that stand too near to a service. [mm]."""
    stand = "stand" if len(pegs) > 1 else "stands"
    return (
        f"{', '.join(each.name for each in pegs)} {stand} within {clear_mm:.0f} mm of the line of {service}. Do not "
        "drive a pin there: trace the service first, and use the place that the peg table gives instead."
    )
