"""Laying in pictures: every piece with its number, where to begin, and what a unit is and how it is bedded."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.drawing._piece_numbers import lines_across, numbers
from pavewright.drawing._plan_laying import laid_directions
from pavewright.drawing._scene import MEDIUM, THICK, THIN, Arrow, Hatch, Region, Sign, Stroke, Symbol
from pavewright.drawing._site_parts import outlines, rings
from pavewright.drawing.pictures import _signs as signs
from pavewright.drawing.pictures._board import BOLD_PEN, HIGH_MM, Board, mass_mark
from pavewright.drawing.pictures._setting_out import bare, filled
from pavewright.drawing.pictures._words import WORDS
from pavewright.job import Bedding
from pavewright.laying import PieceKind
from pavewright.method import LiftWay, lift_way
from pavewright.writing import size_mark, thick

if TYPE_CHECKING:
    from pavewright.drawing._scene import Scene
    from pavewright.drawing.pictures._board import Pen
    from pavewright.job import PavingUnit
    from pavewright.laying import LaidArea
    from pavewright.method import MethodFigures
    from pavewright.pipeline import Plan

_UNIT_ROW_MM = 58.0
"""Height of the row of a unit. [mm]"""
_RIM_MM = 5.0
"""What is taken off the rim of the plan on paper: nothing stands in it. [mm]"""
_LONGEST_MM = 34.0
"""Longest side of a unit in its picture. [mm]"""


def laying_pictures(plan: Plan, figures: MethodFigures) -> tuple[Scene, ...]:
    """Return a plan of pieces for each area, and a picture of each unit.

    Args:
        plan: The plan.
        figures: The guideline weights of lifting.
    """
    drawn = [_area(plan, number, laid) for number, laid in enumerate(plan.laying.areas) if laid.pieces]
    return (*drawn, *_units(plan, figures))


def _area(plan: Plan, number: int, laid: LaidArea) -> Scene:
    area = plan.survey.site.area(laid.area)
    sheet = filled(list(area.gross.outer), HIGH_MM - _UNIT_ROW_MM)
    sheet.on("pieces")
    for piece in laid.pieces:
        hatch = Hatch.NONE if piece.kind is PieceKind.WHOLE else Hatch.CUT
        sheet.add(Region(rings(piece.shape), hatch, THIN))
    sheet.on("outline").add(*outlines(area, MEDIUM))
    sheet.lines_done()
    sheet.on("numbers")
    numbers(sheet, laid, lines_across(sheet, plan))
    along, across = laid_directions(laid)
    first = laid.pieces[0].shape.centre_mm
    step = sheet.mm(14.0)
    begin = first[0] - along[0] * sheet.mm(2.0), first[1] - along[1] * sheet.mm(2.0)
    sheet.on("start").add(Symbol(first, Sign.BLOCK, 3.4))
    sheet.add(Arrow(begin, (begin[0] + along[0] * step, begin[1] + along[1] * step), THICK))
    sheet.add(Arrow(begin, (begin[0] + across[0] * step / 2.0, begin[1] + across[1] * step / 2.0), THICK))
    return bare(
        sheet, f"pictures-pieces-{number + 1}", WORDS.laying, WORDS.plan_of_pieces(area=laid.area), rim_mm=_RIM_MM
    )


def _units(plan: Plan, figures: MethodFigures) -> tuple[Scene, ...]:
    """Return the units with their sizes, weight, joint and bed, each once."""
    scenes: list[Scene] = []
    seen: set[tuple[str, float, Bedding]] = set()
    for laid in plan.laying.areas:
        bedding = plan.job.area(laid.area).laying.bedding
        for count in laid.by_unit:
            if (count.unit, laid.joint_mm, bedding) in seen:
                continue
            seen.add((count.unit, laid.joint_mm, bedding))
            board = Board(f"pictures-unit-{len(seen)}", WORDS.laying, WORDS.unit(unit=count.unit))
            _unit(board.row(_UNIT_ROW_MM), plan.job.unit(count.unit), laid.joint_mm, bedding, figures)
            scenes += board.scenes()
    return tuple(scenes)


def _unit(pen: Pen, unit: PavingUnit, joint_mm: float, bedding: Bedding, figures: MethodFigures) -> None:
    """Draw a unit from above and from its side, who carries it, the joint beside it and the bed under it."""
    scale = _LONGEST_MM / max(unit.length_mm, unit.width_mm)
    wide, deep = unit.length_mm * scale, unit.width_mm * scale
    pen.box((12.0, 18.0), wide, deep)
    pen.both_ways((12.0, 14.0), (12.0 + wide, 14.0))
    pen.number((12.0 + wide / 2.0, 10.0), size_mark(unit.length_mm), 5.0, room_mm=36.0)
    pen.both_ways((8.0, 18.0), (8.0, 18.0 + deep))
    pen.number((1.0, 18.0 + deep + 4.0), size_mark(unit.width_mm), 5.0, "start", room_mm=30.0)
    _weight(pen.moved(56.0, 14.0), unit.kg_each, figures)
    _joint(pen.moved(92.0, 14.0), joint_mm, unit.thickness_mm)
    _bed(pen.moved(142.0, 14.0), bedding)


def _weight(pen: Pen, kg: float, figures: MethodFigures) -> None:
    """Draw who lifts it, as the lift plan has it: one person, two, or a lifting aid."""
    way = lift_way(kg, figures)
    if way is LiftWay.AID:
        signs.hoist(pen.moved(4.0, 8.0, 1.8))
    else:
        for number in range(1 if way is LiftWay.ONE else 2):
            signs.person(pen.moved(8.0 * number, 8.0, 1.6))
    pen.number((12.0, 1.0), mass_mark(kg), 6.0, room_mm=30.0)


def _joint(pen: Pen, joint_mm: float, thickness_mm: float) -> None:
    """Draw two units with the joint between them, and how thick they are."""
    for left in (0.0, 16.0):
        pen.box((left, 10.0), 13.0, 9.0)
    pen.arrow((8.0, 25.0), (13.0, 25.0))
    pen.arrow((21.0, 25.0), (16.0, 25.0))
    pen.line((13.0, 20.0), (13.0, 28.0), stroke=Stroke(0.2))
    pen.line((16.0, 20.0), (16.0, 28.0), stroke=Stroke(0.2))
    pen.number((14.5, 32.0), size_mark(joint_mm), 5.5, room_mm=30.0)
    pen.both_ways((31.5, 10.0), (31.5, 19.0))
    pen.number((34.0, 14.5), thick(thickness_mm), 5.5, "start", room_mm=13.0)


def _bed(pen: Pen, bedding: Bedding) -> None:
    """Draw how it is bedded: in full, and never in dabs."""
    hatch = Hatch.SAND if bedding is Bedding.SAND_ON_SUB_BASE else Hatch.MORTAR
    for low, full in ((22.0, True), (2.0, False)):
        if full:
            pen.box((0.0, low), 25.0, 5.0, hatch)
        else:
            for left in (0.0, 9.5, 19.0):
                pen.box((left, low), 6.0, 5.0, hatch)
        pen.box((0.0, low + 5.0), 25.0, 6.0)
        (signs.yes if full else signs.no)(pen.moved(29.0, low, 1.1))
    pen.line((0.0, 18.5), (25.0, 18.5), stroke=BOLD_PEN)
