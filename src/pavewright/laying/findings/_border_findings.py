"""What is noticed about a border round a curve: joints that open wider than its unit takes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.findings import FieldChange, Finding, Option, Severity
from pavewright.job import BorderKind
from pavewright.laying._codes import Code
from pavewright.laying.findings import _words_curves as words
from pavewright.laying.patterns import min_radius_mm
from pavewright.laying.pieces import frame_of

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.job import Border
    from pavewright.laying.patterns import CurvedRow, Ring
    from pavewright.laying.setting import Workshop

_ROUNDING_MM = 1e-6
"""Rounding of the arithmetic. [mm]"""


def border_findings(shop: Workshop) -> tuple[Finding, ...]:
    """Return a finding where joints of a border open wider round a curve than its unit takes."""
    ring, border = shop.setting.edging, shop.laying.border
    if ring is None or border is None:
        return ()
    unit = shop.setting.units[ring.number]
    wide = [row for row in shop.setting.curved if row.widest_mm > unit.joint_max_mm + _ROUNDING_MM]
    if not wide:
        return ()
    worst = max(wide, key=lambda row: row.widest_mm)
    return (
        Finding(
            Code.BORDER_JOINT,
            Severity.CHECK,
            f"area {shop.area.name}",
            words.border_joint(shop.area.name, worst, unit),
            worst.widest_mm,
            unit.joint_max_mm,
            "mm",
            at_mm=frame_of(shop.area, shop.survey).point_out_of(worst.at_mm),
        ).with_options((*_tried(shop, border), *_by_hand(ring, wide, unit.joint_max_mm))),
    )


def _tried(shop: Workshop, border: Border) -> Iterator[Option]:
    """Give other borders whose joints hold, each worked out before it is said."""
    path = f"{shop.area.path}.laying"
    ring = shop.setting.edging
    if ring is None:
        return
    unit = shop.setting.units[ring.number]
    tighter = unit.joint_min_mm
    if tighter < shop.laying.joint_mm and not shop.zoned and _holds(shop, border, tighter):
        yield Option(words.tighter_joints(tighter), (FieldChange(f"{path}.joint_mm", tighter),))
    for kind in BorderKind:
        if kind is not border.kind and _holds(shop, border.model_copy(update={"kind": kind})):
            yield Option(words.border_in(kind), (FieldChange(f"{path}.border.kind", kind.value),))
    others = [each for each in shop.job.units if each.name != unit.name and each.thickness_mm == unit.thickness_mm]
    for other in others:
        kinds = [each for each in BorderKind if _holds(shop, _with(border, other.name, each))]
        if kinds:
            changes = (
                FieldChange(f"{path}.border.unit", other.name),
                FieldChange(f"{path}.border.kind", kinds[0].value),
            )
            yield Option(words.border_of(other.name, kinds[0]), changes)
    if _holds(shop, border.model_copy(update={"tapered": True})):
        row = max(shop.setting.curved, key=lambda each: each.widest_mm)
        narrow = ring.wide_mm - (row.widest_mm - row.narrowest_mm) * ring.wide_mm / (ring.wide_mm + row.widest_mm)
        yield Option(words.tapered_border(ring.wide_mm, narrow), (FieldChange(f"{path}.border.tapered", value=True),))


def _with(border: Border, unit: str, kind: BorderKind) -> Border:
    return border.model_copy(update={"unit": unit, "kind": kind})


def _holds(shop: Workshop, border: Border, joint_mm: float | None = None) -> bool:
    """Return whether the joints of another border hold."""
    update: dict[str, object] = {"border": border}
    if joint_mm is not None:
        update["joint_mm"] = joint_mm
    found = shop.setting_with(shop.laying.model_copy(update=update))
    if found is None or found[1].edging is None:
        return False
    most = found[1].units[found[1].edging.number].joint_max_mm
    return all(row.widest_mm <= most + _ROUNDING_MM for row in found[1].curved)


def _by_hand(ring: Ring, wide: list[CurvedRow], max_mm: float) -> Iterator[Option]:
    """Give what takes another curve or other units: with the radius, or the size, that holds."""
    needed = [
        min_radius_mm(ring, max_mm, bulges=bulges, closed=closed)
        for bulges, closed in {(row.bulges, row.closed) for row in wide}
    ]
    radii = [radius for radius in needed if radius is not None]
    if radii:
        yield Option(words.larger_radius(max(radii)))
    else:
        yield Option(words.narrower_joints())
    worst = max(wide, key=lambda row: row.widest_mm)
    opening = worst.widest_mm - worst.narrowest_mm
    spare = max_mm - worst.narrowest_mm
    if spare > 0.0:
        # a wedge opens with the depth of a unit and with its width
        deep = int(ring.course_mm * spare / opening * _SURE)
        if deep >= _MIN_DEEP_MM:
            yield Option(words.shallower_units(deep, half=deep >= ring.course_mm / 2.0))


_SURE = 0.95
"""Depths are reported a little short: chords open a little more than arcs."""
_MIN_DEEP_MM = 40
"""No border is shallower. [mm]"""
