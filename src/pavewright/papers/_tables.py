"""Files for other programs: set-out points."""

from __future__ import annotations

import csv
import io
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.setting_out import PegRole

if TYPE_CHECKING:
    from pavewright.pipeline import Plan
    from pavewright.setting_out import Peg
    from pavewright.setting_out.errors import ExpectedError

_DANGEROUS = "=+-@\t\r"
"""A text cell that begins with one of these would be taken for a formula."""


def harmless(text: str) -> str:
    """Return text that no table program takes for a formula: an apostrophe goes before each line that could be one.

    >>> harmless("=1+1"), harmless("Terrace")
    ("'=1+1", 'Terrace')
    """
    lines = text.split("\n")
    return "\n".join(
        f"'{line}" if line.lstrip(" \u00a0")[:1] in _DANGEROUS and line.strip() else line for line in lines
    )


def set_out_points(plan: Plan) -> bytes:
    """Return pegs with places and heights, one row each, for an instrument or a table program."""
    stream = io.StringIO()
    writer = csv.writer(stream, lineterminator="\r\n")
    layers = [height.layer for height in plan.setting_out.pegs[0].heights] if plan.setting_out.pegs else []
    layers = list(dict.fromkeys(h.layer for peg in plan.setting_out.pegs for h in peg.heights)) or layers
    names = [layer.replace(" ", "_").replace("-", "_") for layer in layers]
    writer.writerow(
        ["peg", "area", "kind", "x_mm", "y_mm", "string_level_mm", *(f"{name}_level_mm" for name in names)]
        + [f"{name}_down_mm" for name in names]
        + ["stands", "remark", "instead_x_mm", "instead_y_mm", "sd_along_mm", "sd_off_mm", "within_mm"]
    )
    # no row of a service: an instrument would lead a pin to it
    about = " ".join((plan.setting_out.services_words, *(f"{band.words}." for band in plan.setting_out.services)))
    expected = {(step.area, step.at): step.error for step in plan.setting_out.work.steps}
    for number, peg in enumerate(plan.setting_out.pegs):
        # a pin of the base line carries no string: nothing is measured down from it
        base = peg.role is PegRole.BASE
        by_layer = {} if base else {height.layer: height for height in peg.heights}
        known = [by_layer.get(layer) for layer in layers]
        writer.writerow(
            [harmless(peg.name), harmless(peg.area), peg.role, f"{peg.at[0]:.1f}", f"{peg.at[1]:.1f}"]
            + ["" if base else f"{peg.string_level_mm:.1f}"]
            + ["" if each is None else f"{each.level_mm:.1f}" for each in known]
            + ["" if each is None else f"{each.down_from_string_mm:.1f}" for each in known]
            + [peg.stands.value, *_no_pin(peg, about if number == 0 else ""), *_error(expected.get((peg.area, peg.at)))]
        )
    return stream.getvalue().encode("utf-8")


def _error(error: ExpectedError | None) -> list[str]:
    """Return how far off a corner is expected to come out; nothing for what no step sets out."""
    if error is None:
        return ["", "", ""]
    return [f"{each:.1f}" for each in (error.along_mm, error.off_mm, error.within_mm)]


def instrument_points(plan: Plan, *, north_first: bool) -> bytes:
    """Return points for a total station: number, place, finished level and what it is, metres, without a heading.

    The order of the columns stands in the name of the file alone, for many instruments read no heading. A peg in the
    band of a service is not among them where it stands, but where a pin can be driven instead, if anywhere. A pin of
    the base line has no finished level: its field is empty, never zero.

    Args:
        plan: The plan.
        north_first: Whether north comes before east.
    """
    stream = io.StringIO()
    writer = csv.writer(stream, lineterminator="\r\n")
    for peg in plan.setting_out.pegs:
        at = peg.at if peg.no_pin is None else peg.no_pin.elsewhere
        if at is None:
            continue
        east, north = (f"{units.mm_to_m(each):.3f}" for each in at)
        level = "" if peg.role is PegRole.BASE or at != peg.at else f"{units.mm_to_m(peg.heights[0].level_mm):.3f}"
        said = f"{peg.role.value.upper()} {peg.stands.value.upper()}{'' if at == peg.at else ' MOVED'}"
        writer.writerow([str(peg.number), *((north, east) if north_first else (east, north)), level, said])
    return stream.getvalue().encode("utf-8")


def _no_pin(peg: Peg, before: str) -> list[str]:
    """Return the remark on a peg where no pin is driven, and another place for it."""
    if peg.no_pin is None:
        return [harmless(before), "", ""]
    at = peg.no_pin.elsewhere
    return [
        harmless(f"{peg.no_pin.words}. {before}".strip()),
        *(("", "") if at is None else (f"{at[0]:.1f}", f"{at[1]:.1f}")),
    ]
