"""The sheet of the surface as laid: bays, straight edges, steps, joints, and what moved since."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.as_laid import BAY_STATES, MOVED, TRUSTED, Verdict, limit_text
from pavewright.papers._blocks import SheetOfPaper, heading, paragraph, rest, right, small, table
from pavewright.papers._laid_words import WORDS
from pavewright.papers._words import amount, day

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.as_laid import AsLaidReport, GapAsLaid, JointAsLaid, LipAsLaid, ProfileAsLaid, VisitMoved
    from pavewright.job import AsLaid


def surface_sheet(report: AsLaidReport, taken: AsLaid | None) -> SheetOfPaper:
    """Return what was found of the surface, beside the levels."""
    sheet = SheetOfPaper(WORDS.surface, follows=True)
    sheet.add(paragraph(WORDS.held_to(regime=report.regime.label)))
    rows = [
        (
            f"{bay.area} {bay.number}",
            ", ".join(BAY_STATES[state] for state in bay.states),
            str(len(bay.readings)),
            units.fall_text(bay.planned_fall),
            "–" if bay.fall is None else units.fall_text(bay.fall),
            "–" if bay.farthest_mm is None else f"{bay.farthest_mm:+.1f}",
            "–" if bay.twist is None else f"{bay.twist.twist_mm:.1f}",
        )
        for area in report.areas
        for bay in area.bays
    ]
    heads = ("bay", rest("it is"), right("readings"), right(WORDS.fall_planned), right(WORDS.fall_found),
             right(WORDS.farthest, "mm"), right(WORDS.twist, "mm"))  # fmt: skip
    sheet.add(table(heads, rows))
    _profiles(sheet, [row for area in report.areas for row in area.profiles])
    _gaps(sheet, report.gaps)
    _lips(sheet, report.lips)
    _joints(sheet, report.joints)
    unread = () if taken is None else taken.not_read
    if unread:
        sheet.add(paragraph(WORDS.unread(names=", ".join(name for name, _ in unread))))
    for visit in report.visits:
        _visit(sheet, visit)
    return sheet


def _loud(verdict: Verdict | None) -> str:
    if verdict is None:
        return WORDS.no_verdict
    return verdict.words.upper() if verdict is Verdict.FAILS else verdict.words


def _give(sd_mm: float) -> str:
    return f"{TRUSTED * sd_mm:.1f}"


def _profiles(sheet: SheetOfPaper, rows: Sequence[ProfileAsLaid]) -> None:
    """Add the largest gap of each bay under an edge rolled along its readings."""
    worst: dict[tuple[str, int, float], ProfileAsLaid] = {}
    for row in rows:
        key = row.area, row.bay, row.edge_mm
        if key not in worst or row.gap_mm > worst[key].gap_mm:
            worst[key] = row
    if not worst:
        return
    told = [
        (
            f"{row.area} {row.bay}",
            WORDS.edge(edge=amount(units.mm_to_m(row.edge_mm))),
            "–" if row.contacts is None else f"{row.gap_mm:.1f}",
            "–" if row.contacts is None else _give(row.gap_sd_mm),
            limit_text(row.limit),
            "–"
            if row.contacts is None
            else WORDS.contacts(first=row.contacts[0], last=row.contacts[1], lowest=row.lowest or "–"),
            _loud(row.verdict) if row.sees_between else f"{_loud(row.verdict)}; {WORDS.between}",
        )
        for row in worst.values()
    ]
    heads = ("bay", "edge", right("gap mm", "mm"), right("± mm", "mm"), right("limit"), rest("where"), "verdict")
    sheet.add(heading(WORDS.by_readings), table(heads, told))


def _gaps(sheet: SheetOfPaper, gaps: Sequence[GapAsLaid]) -> None:
    if not gaps:
        return
    rows = [
        (each.name, each.area, WORDS.edge(edge=amount(units.mm_to_m(each.edge_mm))), f"{each.gap_mm:.1f}",
         _give(each.sd_mm), limit_text(each.limit), _loud(each.verdict))
        for each in gaps
    ]  # fmt: skip
    heads = ("at", rest("area"), "edge", right("gap mm", "mm"), right("± mm", "mm"), right("limit"), "verdict")
    sheet.add(heading(WORDS.gaps), table(heads, rows), small(WORDS.trusted))


def _lips(sheet: SheetOfPaper, lips: Sequence[LipAsLaid]) -> None:
    if not lips:
        return
    rows = [
        (each.name, each.area, f"{each.lip_mm:.1f}", _give(each.sd_mm), limit_text(each.limit), _loud(each.verdict))
        for each in lips
    ]
    heads = ("at", rest("area"), right("step mm", "mm"), right("± mm", "mm"), right("limit"), "verdict")
    sheet.add(heading(WORDS.lips), table(heads, rows), small(WORDS.trusted))


def _joints(sheet: SheetOfPaper, joints: Sequence[JointAsLaid]) -> None:
    if not joints:
        return
    rows = [
        (
            each.name,
            each.area,
            "–" if each.width_mm is None else f"{each.width_mm:.1f}",
            "–" if each.planned_mm is None else amount(each.planned_mm),
            "–" if each.recess_mm is None else f"{each.recess_mm:.1f}",
            _loud(each.verdict),
        )
        for each in joints
    ]
    heads = ("at", rest("area"), right("wide mm", "mm"), right("planned", "mm"), right("recess mm", "mm"), "verdict")
    sheet.add(heading(WORDS.joints), table(heads, rows))


def _visit(sheet: SheetOfPaper, visit: VisitMoved) -> None:
    """Add what a later visit says of every place that was read again."""
    sheet.add(
        heading(WORDS.movement(day=day(visit.date), days=str(visit.days), verdict=MOVED[visit.verdict])),
        paragraph(WORDS.movement_about),
    )
    rows = [
        (each.label, each.area, f"{each.moved_mm:+.1f}", _give(each.sd_mm), f"{each.t:.1f}", MOVED[each.verdict])
        for each in visit.places
    ]
    heads = ("at", rest("area"), right("moved mm", "mm"), right("± mm", "mm"), right("t"), "verdict")
    sheet.add(table(heads, rows, type_size=8.0, pad=2.0))
