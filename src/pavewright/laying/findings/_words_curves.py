"""The sentences on rings and on borders round curves, in one place: each takes facts and gives what is said."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units

if TYPE_CHECKING:
    from pavewright.job import BorderKind, PavingUnit
    from pavewright.laying.patterns import CurvedRow, RingCourse


def ring_joint(area: str, rings: int, number: int, worst: RingCourse, unit: PavingUnit) -> str:
    """Say in how many rings joints open too wide, and how wide in the worst."""
    which = f"ring {number}" if rings == 1 else f"{rings} rings, worst in ring {number}"
    return (
        f"Joints of {area} open too wide in {which}: from {worst.inner_joint_mm:.1f} mm inside to "
        f"{worst.outer_joint_mm:.1f} mm outside between {worst.number} of {unit.name}; it takes "
        f"{units.millimetres_text(unit.joint_max_mm)}."
    )


def unit_in_tight_rings(unit: str) -> str:
    """Say which unit keeps the joints of tight rings."""
    return f"Lay {unit} in the rings that are too tight."


def no_ring_holds() -> str:
    """Say that no ring keeps its joints."""
    return "Lay it in another pattern: no ring within the area keeps its joints with these units."


def begin_rings_at(radius_mm: float) -> str:
    """Say from which radius on rings hold. [mm]."""
    return (
        f"Begin the rings {radius_mm:.0f} mm from the centre and lay what lies inside straight: every ring then holds."
    )


def cut_to_wedges(outside_mm: float, inside_mm: float) -> str:
    """Say to which taper units of inner rings are cut. [mm]."""
    return (
        f"Cut the sides of the inner units to a wedge, in the worst ring from {outside_mm:.0f} mm outside to "
        f"about {inside_mm:.0f} mm inside, and close the ring with more of them."
    )


def border_joint(area: str, worst: CurvedRow, unit: PavingUnit) -> str:
    """Say how wide the joints of a border open round a curve."""
    return (
        f"Joints of the border of {area} open too wide round its curve: from {worst.narrowest_mm:.1f} mm "
        f"on the tight side to {worst.widest_mm:.1f} mm on the other, at a radius of "
        f"{units.millimetres_text(worst.radius_mm)}; {unit.name} takes "
        f"{units.millimetres_text(unit.joint_max_mm)}."
    )


def tighter_joints(joint_mm: float) -> str:
    """Say with which joints a border holds. [mm]."""
    return f"Lay with joints of {joint_mm:g} mm: those of the border then hold."


def border_in(kind: BorderKind) -> str:
    """Say in which kind of course a border holds."""
    return f"Lay the border in {kind.value}s."


def border_of(unit: str, kind: BorderKind) -> str:
    """Say with which unit, in which kind of course, a border holds."""
    return f"Lay the border of {unit}, in {kind.value}s."


def tapered_border(wide_mm: float, narrow_mm: float) -> str:
    """Say to which taper units of a border are cut. [mm]."""
    return (
        f"Cut every unit round the curve to a taper, from {wide_mm:.0f} mm to about {narrow_mm:.0f} mm at the "
        "tightest place: two cuts a unit, joints of one width."
    )


def larger_radius(radius_mm: float) -> str:
    """Say at which radius untapered units hold. [mm]."""
    return f"Draw the curve with a radius of {radius_mm:.0f} mm or more: untapered units then hold."


def narrower_joints() -> str:
    """Say that no curve holds with the joint asked for."""
    return "Lay with narrower joints: the joint asked for is as wide as the unit takes, so no curve holds."


def shallower_units(deep_mm: int, *, half: bool) -> str:
    """Say how far units may reach in from the edge. [mm]."""
    return f"Take units that reach at most {deep_mm} mm in from the edge{', such as half units' if half else ''}."
