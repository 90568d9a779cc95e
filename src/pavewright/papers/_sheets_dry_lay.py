"""Sheets for the dry lay: real sizes, the gauge of the first course, what to look at, and templates of odd cuts."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from pavewright.drawing import template_scenes
from pavewright.laying import is_skew, template_of, wants_template
from pavewright.papers._bench_words import DRY_LAY as SAID
from pavewright.papers._blocks import (
    SheetOfPaper,
    drawing_sheet,
    heading,
    paragraph,
    pencil,
    points,
    rest,
    right,
    small,
    table,
)
from pavewright.papers._words import amount, one, two, whole

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.laying import GaugeMark, LaidArea, Template
    from pavewright.papers._blocks import Block
    from pavewright.papers._figures import PaperFigures
    from pavewright.pipeline import Plan

_MAX_MARKS = 48
"""More marks than this and only every so many is written."""
_SIDE_BY_SIDE = 3
_STEP_MM = 50.0

_CHECKS = (
    SAID.ten_units_each_size,
    SAID.outline_taped_again_as,
    SAID.string_along_first_course,
    SAID.first_course_laid_dry,
    SAID.course_laid_dry_other,
    SAID.last_unit_each_as,
    SAID.joints_doors_covers_gullies,
    SAID.units_from_several_packs,
    SAID.cut_list_checked_against,
)


def dry_lay_sheet(plan: Plan, figures: PaperFigures) -> SheetOfPaper:
    """Return what is looked at before anything is bedded: measured sizes, the first course, the list of checks."""
    sheet = SheetOfPaper(SAID.first_course_dry_lay, follows=True)
    for laid in plan.laying.areas:
        corner = plan.job.area(laid.area).laying.start_corner.value.replace("_", " ")
        sheet.add(heading(SAID.first_course_from_corner(area=laid.area, corner=corner, joint=amount(laid.joint_mm))))
        sheet.add(*_gauge(laid.gauge))
    sheet.add(*_real_sizes(plan, figures))
    sheet.add(
        heading("Dry lay"),
        table((rest("look at"), pencil("found"), pencil("by")), [(check, "", "") for check in _CHECKS], pad=4.0),
        small(SAID.checks_common_practice),
    )
    return sheet


def _gauge(marks: Sequence[GaugeMark]) -> list[Block]:
    """Return the marks of a course, several side by side; every so many where there are more than fit."""
    every = max(1, math.ceil(len(marks) / _MAX_MARKS))
    shown = [mark for number, mark in enumerate(marks, start=1) if number % every == 0 or mark is marks[-1]]
    rows_deep = math.ceil(len(shown) / _SIDE_BY_SIDE)
    cells = [(str(mark.piece), one(mark.start_mm), one(mark.end_mm)) for mark in shown]
    rows = []
    for row in range(rows_deep):
        across = [
            cells[k] if (k := row + part * rows_deep) < len(cells) else ("", "", "") for part in range(_SIDE_BY_SIDE)
        ]
        rows.append([cell for triple in across for cell in triple])
    heads = (right("piece"), right("begins", "mm"), right("ends", "mm")) * _SIDE_BY_SIDE
    words = SAID.millimetres_from_beginning_first
    some = SAID.every_pieces_last(every=every, marks=len(marks)) if every > 1 else ""
    return [table(heads, rows, type_size=8.0, pad=2.0), small(f"{words}{some}.")]


def _thicknesses(plan: Plan, figures: PaperFigures) -> list[str]:
    """Say how far the thickness of each unit may be off in its class."""
    said = []
    for unit in plan.job.units:
        may = figures.thickness_mm.get(unit.size_class) if unit.size_class is not None else None
        if may is not None:
            title = figures.sources[may.source].title
            said.append(
                SAID.mm_thick_mm_either(
                    name=unit.name,
                    thickness=whole(unit.thickness_mm),
                    value=amount(may.value),
                    title=title,
                    place=may.place,
                    status=may.status.words,
                )
            )
    return said


def _real_sizes(plan: Plan, figures: PaperFigures) -> list[Block]:
    """Return units as measured and what the longest runs do with them, and thickness by class."""
    rows = [
        (
            laid.area,
            f"{grown.unit}, {grown.way}",
            str(grown.measured),
            one(grown.work_mm),
            one(grown.mean_mm),
            two(grown.spread_mm),
            str(grown.units_in_run),
            f"{grown.growth_mm:+.0f} ± {grown.doubt_mm:.0f}",
            one(grown.absorbing_joint_mm),
        )
        for laid in plan.laying.areas
        for grown in laid.growth
    ]
    said = _thicknesses(plan, figures)
    if not rows and not said:
        return []
    heads = (
        rest("area"),
        rest("unit"),
        right("measured"),
        right("work"),
        right("mean"),
        right("spread"),
        right("in run"),
        right("growth"),
        right(SAID.joint_that_absorbs),
    )
    blocks: list[Block] = [heading("Measured sizes")]
    if rows:
        blocks += [
            table(heads, rows, type_size=8.0),
            small(SAID.spread_standard_deviation_one),
        ]
    return [*blocks, points(said)] if said else blocks


def template_sheets(plan: Plan) -> list[SheetOfPaper]:
    """Return drawings of curved and notched pieces to scale, and corners of skew ones; none where all are square."""
    odd = [(laid, piece) for laid in plan.laying.areas for piece in laid.pieces if wants_template(piece)]
    scenes = template_scenes(odd)
    sheets = [
        drawing_sheet(scene, f"Templates, sheet {number}", listed=number == 1)
        for number, scene in enumerate(scenes, start=1)
    ]
    for sheet in sheets:
        sheet.add(small(SAID.seen_from_above_length))
    return [*sheets, *_skew_sheet(plan)]


def _skew_sheet(plan: Plan) -> list[SheetOfPaper]:
    skew = [(laid, piece) for laid in plan.laying.areas for piece in laid.pieces if is_skew(piece)]
    if not skew:
        return []
    sheet = SheetOfPaper(SAID.templates_skew_cuts, follows=True)
    sheet.add(
        paragraph(SAID.corners_each_piece_its),
        table(
            (
                rest("area"),
                right("piece"),
                right("box along", "mm"),
                right("across", "mm"),
                rest("corners: along, across"),
            ),
            [_skew_row(laid, template_of(laid, piece, _STEP_MM)) for laid, piece in skew],
            type_size=8.0,
            pad=2.0,
        ),
    )
    return [sheet]


def _skew_row(laid: LaidArea, template: Template) -> tuple[str, ...]:
    corners = "; ".join(f"{x:.0f}, {y:.0f}" for x, y in template.corners_mm)
    return laid.area, str(template.piece), whole(template.along_mm), whole(template.across_mm), corners
