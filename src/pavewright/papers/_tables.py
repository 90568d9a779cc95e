"""Files for other programs: set-out points."""

from __future__ import annotations

import csv
import io
from typing import TYPE_CHECKING

from pavewright.setting_out import PegRole

if TYPE_CHECKING:
    from pavewright.pipeline import Plan
    from pavewright.setting_out import Peg

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
        + ["stands", "remark", "instead_x_mm", "instead_y_mm"]
    )
    # no row of a service: an instrument would lead a pin to it
    about = " ".join((plan.setting_out.services_words, *(f"{band.words}." for band in plan.setting_out.services)))
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
            + [peg.stands.value, *_no_pin(peg, about if number == 0 else "")]
        )
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
