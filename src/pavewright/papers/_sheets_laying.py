"""Sheets for the bench: the laying plan, the cut list, and the slabs to be sawn with their cuts in order."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.drawing import cuts_in_words, laying_parts, laying_plan, saw_drawings
from pavewright.laying import PieceKind, is_skew
from pavewright.papers._bench_words import LAYING as SAID
from pavewright.papers._blocks import (
    PACK_FRAME,
    Block,
    SheetOfPaper,
    drawing_sheet,
    facts,
    heading,
    points,
    rest,
    right,
    small,
    table,
)
from pavewright.papers._words import amount, one, sum_behind, two, whole

if TYPE_CHECKING:
    from pavewright.laying import LaidArea, Piece, SawnUnit, UnitCount
    from pavewright.papers._figures import PaperFigures
    from pavewright.pipeline import Plan


def laying_sheets(plan: Plan, figures: PaperFigures) -> list[SheetOfPaper]:
    """Return the laying plan, the cut list, and the slabs to be sawn with their cuts in order."""
    cuts = SheetOfPaper("Cut list", follows=True)
    for laid in plan.laying.areas:
        _add_cuts(cuts, laid, figures)
    drawn = [
        drawing_sheet(scene, listed=number == 0)
        for laid in plan.laying.areas
        for number, scene in enumerate(saw_drawings(laid))
    ]
    return [drawing_sheet(laying_plan(plan, PACK_FRAME)), cuts, *drawn]


def _cut_rows(laid: LaidArea) -> list[tuple[str, ...]]:
    """Return the pieces of one area that are cut, with the unit that each is sawn from."""
    from_unit = {part.piece: (sawn, part) for sawn in laid.sawn for part in sawn.parts}
    rows: list[tuple[str, ...]] = []
    for piece in laid.pieces:
        if piece.kind is PieceKind.WHOLE:
            continue
        sawn, part = from_unit[piece.number]
        kind = [*_stopped(piece), *(["SLIVER"] if piece.sliver else [])]
        if len(laid.by_unit) > 1:
            kind.insert(0, piece.unit)
        rows.append(
            (
                str(piece.number),
                f"{piece.course}/{piece.place}",
                whole(piece.along_mm),
                whole(piece.across_mm),
                one(piece.kg),
                f"{sawn.number}{' turned' if part.turned else ''}",
                two(piece.saw_m),
                ", ".join(kind),
            )
        )
    return rows


def _add_cuts(cuts: SheetOfPaper, laid: LaidArea, figures: PaperFigures) -> None:
    """Add the cut list of one area."""
    rows = _cut_rows(laid)
    slivers = f"{laid.slivers} sliver{'' if laid.slivers == 1 else 's'}"
    cuts.add(
        heading(f"{laid.area}: {', '.join(count.unit for count in laid.by_unit)}"),
        facts(
            [
                ("Pieces", f"{laid.whole} whole, {laid.cut} cut, {slivers}, {laid.courses} courses"),
                *(_counted(count, only=len(laid.by_unit) == 1) for count in laid.by_unit),
                (SAID.joint_saw_cut, f"{amount(laid.joint_mm)} mm and {amount(laid.kerf_mm)} mm"),
                ("Sawing", _sawing(laid, figures)),
                *_left_over_facts(laid),
                *_fold_facts(laid),
                *_mixed_facts(laid),
            ]
        ),
        table(
            (
                right("piece"),
                "course/place",
                right("along", "mm"),
                right("across", "mm"),
                right("kg", "kg"),
                "from unit",
                right("saw m", "m"),
                rest("what"),
            ),
            rows,
            type_size=8.0,
            pad=2.0,
        ),
        *_saw_blocks(laid),
        points([sum_behind(working, figures) for working in laid.workings]),
        small(" ".join(laid.limits)),
    )


def piece_number_sheets(plan: Plan) -> list[SheetOfPaper]:
    """Return the laying plan in parts with the number of every piece; none where one sheet has room for all."""
    found = []
    for part in laying_parts(plan):
        sheet = drawing_sheet(part.scene)
        if part.unnumbered:
            named = ", ".join(f"{area} {number}" for area, number in part.unnumbered)
            sheet.add(small(SAID.too_small_number_even(named=named)))
        found.append(sheet)
    return found


def _sawing(laid: LaidArea, figures: PaperFigures) -> str:
    """Return the length of all saw cuts, and by what their time is counted: the rulebook has an output by the piece."""
    folds = laid.fold_cuts
    along = SAID.m_along_folds(saw=one(folds.saw_m)) if folds.pieces else ""
    each = figures.cut_h_each.value
    return SAID.m_time_counted_piece(
        saw_with_folds=one(laid.saw_with_folds_m), along=along, cuts=laid.cuts, each=f"{each:g}"
    )


def _counted(count: UnitCount, *, only: bool) -> tuple[str, str]:
    """Return how many of a paving unit are needed, with the bound."""
    needed = SAID.with_offcuts_used_again(
        units_with_offcuts=count.units_with_offcuts, units_each_cut_new=count.units_each_cut_new
    )
    if not count.units_each_cut_new:
        return count.unit, SAID.all_them_be_sawn(units_with_offcuts=count.units_with_offcuts)
    return "Units" if only else count.unit, f"{needed}; fewer than {count.units_bound} is impossible"


def _left_over_facts(laid: LaidArea) -> list[tuple[str, str]]:
    """Return what is cut from left-overs, and what is worth keeping; nothing where there is neither."""
    found = []
    taken = sum(bool(unit.left_over_of) for unit in laid.sawn)
    if taken:
        found.append(("From left-overs", SAID.pieces_stone_saw_bought(taken=taken, sawn=len(laid.sawn))))
    if laid.left_overs:
        sizes = Counter(f"{each.along_mm:.0f} × {each.across_mm:.0f}" for each in laid.left_overs)
        words = ", ".join(f"{count} of {size}" if count > 1 else size for size, count in sizes.items())
        found.append((SAID.left_over_worth_keeping, f"{words} mm"))
    return found


def _fold_facts(laid: LaidArea) -> list[tuple[str, str]]:
    """Return which pieces are cut along a fold; nothing for an area that is one plane."""
    cuts, found = laid.fold_cuts, []
    if cuts.pieces:
        named = ", ".join(str(number) for number in cuts.pieces)
        found.append((SAID.cut_along_folds_too, SAID.m_both_parts_laid(saw=one(cuts.saw_m), named=named)))
    if cuts.uncut:
        named = ", ".join(str(number) for number in cuts.uncut)
        words = SAID.part_too_narrow_be(named=named)
        found.append(("Across a fold", words))
    return found


def _mixed_facts(laid: LaidArea) -> list[tuple[str, str]]:
    """Return the bays and the look of mixed sizes; nothing for every other pattern."""
    if laid.mixed is None:
        return []
    mixed = laid.mixed
    each = ", ".join(f"{two(n)} {name}" for n, name in zip(mixed.units_per_m2, mixed.units, strict=True))
    found = [
        (SAID.longest_straight_joint, f"{two(units.mm_to_m(mixed.longest_joint_mm))} m"),
        (SAID.beside_one_their_size, SAID.units(what=f"{100.0 * mixed.equal_neighbour_part:.0f}")),
        ("In a square metre", each),
    ]
    if mixed.bay_joints:
        found.append(("Movement joints", f"{one(mixed.bay_joint_m)} m between {mixed.bays} bays"))
    return found


def _saw_blocks(laid: LaidArea) -> list[Block]:
    """Return the cuts of every unit in order, and the pieces with cuts that stop inside the stone."""
    if not laid.sawn:
        return []
    several = len({unit.unit for unit in laid.sawn}) > 1
    rows = [
        (
            _told(unit, several=several),
            ", ".join(str(part.piece) for part in unit.parts),
            cuts_in_words(unit) or SAID.its_own_outline,
        )
        for unit in laid.sawn
    ]
    stopped = [
        f"{piece.number} ({' and '.join(_stopped(piece))})"
        for piece in laid.pieces
        if piece.kind is PieceKind.CUT and _stopped(piece)
    ]
    blocks = [
        small(SAID.straight_cuts_order_across),
        table((right("unit"), rest("pieces"), rest(SAID.cuts_nearer_face_blade)), rows, type_size=8.0, pad=1.8),
    ]
    if stopped:
        blocks.append(small(SAID.then_stopped_curved_or(stopped=", ".join(stopped))))
    return blocks


def _told(unit: SawnUnit, *, several: bool) -> str:
    """Return a unit to be sawn by its number, by its name where the area saws several, and from where it is left."""
    left = SAID.left_over_from(left_over_of=unit.left_over_of) if unit.left_over_of else ""
    return ", ".join(filter(None, (str(unit.number), unit.unit if several else "", left)))


def _stopped(piece: Piece) -> list[str]:
    """Return what a piece needs beside straight cuts right across."""
    skew = is_skew(piece) and not piece.notched and not piece.curved
    return [word for word, said in (("notch", piece.notched), ("curve", piece.curved), ("skew", skew)) if said]
