"""Files for other programs: a workbook of quantities, set-out points, the programme as a calendar."""

from __future__ import annotations

import csv
import datetime as dt
import io
from typing import TYPE_CHECKING
from urllib.parse import quote

import xlsxwriter
from icalendar import Calendar, Event

from pavewright.laying import PieceKind
from pavewright.quantities import ItemKind

if TYPE_CHECKING:
    from xlsxwriter.worksheet import Worksheet

    from pavewright.pipeline import Plan
    from pavewright.setting_out import Peg

_DANGEROUS = "=+-@\t\r"
"""A text cell that begins with one of these would be taken for a formula."""
_HEADS = (
    *("Item", "Group", "Unit", "Net", "Allowance %", "With allowance", "Order", "Of", "Ordered amount"),
    *("Low", "High", "kg"),
)
_COUNTED = frozenset({ItemKind.UNITS, ItemKind.MIXED_PACK})
"""Items whose gross is counted, not net times an allowance."""
_NO_GUESSING = {"strings_to_formulas": False, "strings_to_urls": False, "strings_to_numbers": False}


def harmless(text: str) -> str:
    """Return text that no table program takes for a formula: an apostrophe goes before each line that could be one.

    >>> harmless("=1+1"), harmless("Terrace")
    ("'=1+1", 'Terrace')
    """
    lines = text.split("\n")
    return "\n".join(
        f"'{line}" if line.lstrip(" \u00a0")[:1] in _DANGEROUS and line.strip() else line for line in lines
    )


def quantities_workbook(plan: Plan) -> bytes:
    """Return the quantities as a workbook: numbers as numbers, the sums as formulas with their answers."""
    stream = io.BytesIO()
    book = xlsxwriter.Workbook(stream, {"in_memory": True, **_NO_GUESSING})
    made = dt.datetime.combine(plan.job.identity.date, dt.time(), tzinfo=dt.UTC).replace(tzinfo=None)
    book.set_properties({"title": f"{plan.job.identity.job} quantities", "created": made})
    bold = book.add_format({"bold": True, "bottom": 1})
    sheet = book.add_worksheet("Quantities")
    sheet.write_row(0, 0, _HEADS, bold)
    sheet.freeze_panes(1, 0)
    sheet.set_column(0, 0, 46)
    sheet.set_column(1, 11, 13)
    for row, item in enumerate(plan.quantities.items, start=1):
        for column, text in ((0, item.description), (1, item.group), (2, item.unit), (7, item.order_unit)):
            sheet.write_string(row, column, text)
        sheet.write_number(row, 3, item.net)
        sheet.write_number(row, 4, item.allowance_percent)
        if item.key.kind in _COUNTED:
            sheet.write_number(row, 5, item.gross)
        else:
            sheet.write_formula(row, 5, f"=D{row + 1}*(1+E{row + 1}/100)", None, item.gross)
        sheet.write_number(row, 6, item.ordered)
        sheet.write_number(row, 8, item.ordered_amount)
        for column, number in ((9, item.low), (10, item.high), (11, item.kg)):
            if number is not None:
                sheet.write_number(row, column, number)
    _packs(book, plan, bold)
    _cuts(book.add_worksheet("Cuts"), plan, bold)
    book.close()
    return stream.getvalue()


def _packs(book: xlsxwriter.Workbook, plan: Plan, bold: object) -> None:
    """Write what mixed packs hold, where any are ordered."""
    holding = [(item, each) for item in plan.quantities.items for each in item.holds]
    if not holding:
        return
    sheet = book.add_worksheet("Mixed packs")
    heads = ("Size", "In one pack", "Packs", "Needed", "With spares", "Ordered", "Over")
    sheet.write_row(0, 0, heads, bold)
    sheet.freeze_panes(1, 0)
    sheet.set_column(0, 0, 30)
    for row, (item, each) in enumerate(holding, start=1):
        sheet.write_string(row, 0, each.unit)
        numbers = (each.per_pack, item.ordered, each.needed, each.with_spares)
        for column, number in enumerate(numbers, start=1):
            sheet.write_number(row, column, number)
        sheet.write_formula(row, 5, f"=B{row + 1}*C{row + 1}", None, each.ordered)
        sheet.write_formula(row, 6, f"=F{row + 1}-D{row + 1}", None, each.left)


def _cuts(sheet: Worksheet, plan: Plan, bold: object) -> None:
    heads = ("Area", "Piece", "Course", "Place", "Along mm", "Across mm", "m²", "kg", "Saw m", "Unit")
    sheet.write_row(0, 0, heads, bold)
    sheet.freeze_panes(1, 0)
    row = 1
    for laid in plan.laying.areas:
        for piece in laid.pieces:
            if piece.kind is PieceKind.WHOLE:
                continue
            sheet.write_string(row, 0, laid.area)
            place = (piece.number, piece.course, piece.place)
            numbers = (*place, piece.along_mm, piece.across_mm, piece.area_m2, piece.kg, piece.saw_m)
            for column, number in enumerate(numbers, start=1):
                sheet.write_number(row, column, number)
            sheet.write_string(row, len(heads) - 1, piece.unit)
            row += 1


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
        by_layer = {height.layer: height for height in peg.heights}
        known = [by_layer.get(layer) for layer in layers]
        writer.writerow(
            [harmless(peg.name), harmless(peg.area), peg.role, f"{peg.at[0]:.1f}", f"{peg.at[1]:.1f}"]
            + [f"{peg.string_level_mm:.1f}"]
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


def programme_calendar(plan: Plan) -> bytes:
    """Return the programme as a calendar: local time of the site, names that stay the same."""
    who = plan.job.identity
    calendar = Calendar()
    calendar.add("prodid", "-//pavewright//programme//EN")
    calendar.add("version", "2.0")
    stamp = dt.datetime.combine(who.date, dt.time(), tzinfo=dt.UTC)
    for task in plan.programme.tasks:
        event = Event()
        event.add("uid", f"{quote(who.job, safe='')}-{task.key.text}@pavewright.invalid")
        event.add("sequence", who.revision)
        event.add("dtstamp", stamp)
        event.add("dtstart", task.start)
        event.add("dtend", task.finish)
        event.add("summary", f"{who.job}: {task.description}")
        event.add("transp", "TRANSPARENT" if task.wait else "OPAQUE")
        calendar.add_component(event)
    return bytes(calendar.to_ical())
