"""The sentences of the findings on setting out, in one place."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.setting_out._codes import Code
from pavewright.writing import Sentence

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from pavewright.setting_out._types import HouseInTheWay, Peg, StringLine


FINDINGS: Mapping[Code, Sentence] = {
    Code.NO_BASE_LINE: Sentence(
        "No line beside the dig of {area} has room for two pegs that stay. The base line runs along {side} and is dug "
        "away: measure its corners again from two fixed marks on walls after the dig."
    ),
    Code.CORNER_NOT_TAPED: Sentence(
        "No two tapes that can be pulled straight fix {corners} of {area}: something stands in the way, or they would "
        "cross too flat. Set out there by the distance along the base line and square off it, and prove it with the "
        "sides.{house}"
    ),
    Code.STRING_END_IN_DIG: Sentence(
        "Strings of {area} end at {pegs} inside the dig, where no pin can be driven past them. Set these again from "
        "the base line after the dig."
    ),
    Code.STRING_SAGS: Sentence("String {string} is {long} m long and will sag: put a peg under its middle."),
    Code.PEG_NEAR_SERVICE: Sentence(
        "{pegs}: within {clear} mm of the line of {service}. Do not drive a pin there: trace the service first, and "
        "use the place that the peg table gives instead."
    ),
}
"""What is said of each finding, in English."""


def no_base_line(area: str, side: str) -> str:
    """Say that no base line could be found beside the dig."""
    return FINDINGS[Code.NO_BASE_LINE](area=area, side=side)


def corner_not_taped(area: str, corners: Iterable[str], houses: Iterable[HouseInTheWay]) -> str:
    """Name the corners that no two tapes fix."""
    house = "".join(f" {each.words}" for each in houses)
    return FINDINGS[Code.CORNER_NOT_TAPED](corners=", ".join(corners), area=area, house=house)


def string_end_in_dig(area: str, pegs: Iterable[Peg]) -> str:
    """Name the pegs inside the dig at which strings end."""
    return FINDINGS[Code.STRING_END_IN_DIG](area=area, pegs=", ".join(each.name for each in pegs))


def string_sags(string: StringLine) -> str:
    """Say that a string is too long to hang straight."""
    return FINDINGS[Code.STRING_SAGS](string=string.name, long=units.metres_text(string.length_mm))


def peg_near_service(pegs: list[Peg], clear_mm: float, service: str) -> str:
    """Name the pegs that stand too near to a service. [mm]."""
    names = ", ".join(each.name for each in pegs)
    return FINDINGS[Code.PEG_NEAR_SERVICE](pegs=names, clear=f"{clear_mm:.0f}", service=service)
