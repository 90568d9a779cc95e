"""The sheets for setting out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.drawing import setting_out_plan
from pavewright.papers._blocks import (
    PACK_FRAME,
    SheetOfPaper,
    drawing_sheet,
    heading,
    paragraph,
    pencil,
    points,
    rest,
    right,
    table,
)
from pavewright.papers._site_words import SETTING_OUT as SAID
from pavewright.papers._words import amount, level, whole
from pavewright.setting_out import PegRole

if TYPE_CHECKING:
    from pavewright.papers._blocks import Head
    from pavewright.pipeline import Plan
    from pavewright.setting_out import BaseLine, Peg


def setting_out_sheets(plan: Plan) -> list[SheetOfPaper]:
    """Return the plan of pegs and the sheet with heights below the string, with room to write what was found."""
    setting = plan.setting_out
    sheet = SheetOfPaper("Setting out", upright=False)
    high = f"{amount(setting.string_height_mm)}"
    sheet.add(paragraph(SAID.every_string_runs_mm(high=high)))
    sheet.add(paragraph(setting.services_words), points([f"{band.words}." for band in setting.services]))
    sheet.add(paragraph(SAID.pin_driven_outside_dig))
    for line in setting.base_lines:
        _add_pegs(sheet, line, [peg for peg in setting.pegs if peg.area == line.area])
    numbers = {peg.name: peg.number for peg in setting.pegs}
    strings = [
        (
            each.name,
            *(str(numbers[end]) for end in (each.start, each.end)),
            *(whole(each.length_mm), f"{each.fall_mm:+.0f}", "fall" if each.carries_fall else "across"),
        )
        for each in setting.strings
    ]
    sheet.add(
        heading("Strings"),
        table(
            ("string", right("from peg"), right("to peg"), right("length", "mm"), right("drop", "mm"), "carries"),
            strings,
        ),
    )
    checks = [(check.kind, check.words, whole(check.expected_mm), "") for check in setting.checks]
    sheet.add(
        heading(SAID.tapes_check_before_digging),
        table(("kind", rest("what"), right("expected", "mm"), pencil("found")), checks, type_size=8.0, pad=3.2),
        points([each.words for each in setting.houses]),
    )
    return [drawing_sheet(setting_out_plan(plan, PACK_FRAME)), sheet]


def _add_pegs(sheet: SheetOfPaper, line: BaseLine, pegs: list[Peg]) -> None:
    """Add the pegs of one area with heights below the string."""
    if not pegs:
        return
    layers = [height.layer for height in pegs[0].heights]
    rows = [
        (
            str(peg.number),
            f"{peg.role}, {peg.stands.value if peg.no_pin is None else 'NO PIN'}",
            peg.from_corner
            if peg.no_pin is None
            else SAID.place_itself(no_pin=peg.no_pin.words, from_corner=peg.from_corner),
            *_peg_heights(peg),
            "",
        )
        for peg in pegs
    ]
    heads: tuple[str | Head, ...] = (
        right("peg"),
        "kind",
        rest(SAID.where_from_base_line),
        right("string", "level"),
        *(right(f"to {layer}", "mm") for layer in layers),
        right("formation", "level"),
        pencil("found"),
    )
    sheet.add(
        heading(SAID.base_line_millimetres_down(area=line.area, line=line.words)),
        table(heads, rows, type_size=8.0, pad=3.2),
    )


def _peg_heights(peg: Peg) -> tuple[str, ...]:
    """Return the string, what lies how far below it, and formation; a pin of the base line carries no string."""
    if peg.role is PegRole.BASE:
        return ("–",) * (len(peg.heights) + 2)
    downs = (whole(height.down_from_string_mm) for height in peg.heights)
    return level(peg.string_level_mm), *downs, level(peg.heights[-1].level_mm)
