"""The sentences of the findings on paving as laid, in one place."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.as_laid._codes import Code
from pavewright.findings import worded
from pavewright.writing import Sentence

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.as_laid._figures import AsLaidFigures
    from pavewright.as_laid._types import AreaAsLaid, ReadingCheck, WallCheck
    from pavewright.findings import Option
    from pavewright.job import AsLaidReading

FINDINGS: Mapping[Code, Sentence] = {
    Code.OUTSIDE: Sentence("{label} is booked on {area} but does not lie on it: check its place."),
    Code.NOT_READ: Sentence("Not read on the paving: {places}. Read the staff there."),
    Code.DPC_UNREAD: Sentence(
        "Nobody read the paving within {near} of {walls}: how far it lies below the damp-proof course is not known "
        "there."
    ),
    Code.UNREAD: Sentence("{area} has no readings as laid."),
    Code.TOO_FEW_READINGS: Sentence(
        "{readings} readings on {paved} m² of {area} say little about what lies between them: read the staff on a "
        "grid of {apart} m."
    ),
    Code.OUT_OF_TOLERANCE: Sentence("{label} lies {off} {way}: {found} m found, {planned} m planned."),
    Code.DPC_BY_TOLERANCE: Sentence(
        "{at_wall}: within the {allowed}. Inform the customer, and lay no more of it higher."
    ),
    Code.DPC_INCONCLUSIVE: Sentence("{at_wall}: {past}, but too near to it for these readings to decide."),
    Code.TOO_NEAR_DPC: Sentence("{at_wall}: {past}."),
    Code.SHIFTED: Sentence(
        "On the whole {area} lies {off} {way}, scatter {spread}. All alike points at the datum: read the benchmark "
        "again before blaming the laying."
    ),
    Code.REVERSE_FALL: Sentence("{area} was found to rise the way it should fall: water runs the wrong way."),
    Code.TOO_FLAT: Sentence(
        "{area} was found to fall {found}; {planned} was planned and flatter than {least} is slow to clear."
    ),
    Code.OUT_OF_PLANE: Sentence(
        "{labels} on {bay} stand out of the plane that the others make, {off} {way} the most: read again, and look "
        "at the unit there."
    ),
    Code.BAY_OFF_DESIGN: Sentence(
        "{bay} was built off its design: falls {found}, {planned} was planned; at its worst corner {off} {way}."
    ),
    Code.FLAT_BY_DESIGN: Sentence(
        "{bay} is flat by design: {planned} was planned and flatter than {least} is slow to clear. What stands on it "
        "is no fault of laying."
    ),
    Code.PROFILE: Sentence(
        "Under an edge of {edge} m along {first} to {last} the readings alone show a gap of {gap} at {at}; {limit} is "
        "allowed ({regime})."
    ),
    Code.GAP: Sentence("{name}: a gap of {gap} under {edge} m; {limit} is allowed ({regime})."),
    Code.LIP: Sentence("{name}: a lip of {lip}; {limit} is allowed ({regime})."),
    Code.BY_STAFF: Sentence(
        "{names}: lips read with a staff are known to {sure} only and cannot be held to {limit}. Take a step "
        "gauge or feelers."
    ),
    Code.JOINT: Sentence("{name}: a joint of {width}, {recess} deep to its filling; outside what {regime} allows."),
    Code.HOSE_FAILED: Sentence(
        "Hose test {name} on {area}: water stood {deep} deep at {marks}, {minutes} min after it was turned off."
    ),
    Code.GRATING: Sentence(
        "{mark} at {drain}: the paving stands {stands} the grating, and {low} to {high} mm above is wanted: {why}."
    ),
    Code.STANDS: Sentence("On {area} water is likely to stand deeper than {depth} mm: a chance of {chance}.{hose}"),
    Code.BAY_MOVED: Sentence("{bay} moved between laying and {date}: {moved} {way} in the mean, known to {sure}."),
    Code.PLACE_MOVED: Sentence(
        "Moved between laying and {date}: {places}; {moved} {way} at the most, known to {sure}."
    ),
    Code.NO_DATUM: Sentence(
        "On {date} no fixed mark was read that was read as laid: only what moved against the rest is told. Read a sill "
        "or a cover frame on both visits."
    ),
    Code.DATUM_UNSURE: Sentence(
        "On {date} the fixed marks {marks} do not agree with the day as laid and nobody can tell which of them moved: "
        "read them again, and a third."
    ),
    Code.MARK_MOVED: Sentence("By {date} the fixed mark {marks} had moved against the others and is left out."),
}
"""What is said of each finding, in English."""
_HIGH, _LOW = "high", "low"


_AGAIN = "Read the damp-proof course and the paving again."


def outside(label: str, area: str) -> str:
    """Say that a reading does not lie on the area on which it is booked."""
    return FINDINGS[Code.OUTSIDE](label=label, area=area)


def not_read(empty: list[AsLaidReading]) -> str:
    """Name the places at which a reading was meant to be taken and was not."""
    places = ", ".join(reading.label or f"x {reading.x_mm:.0f}, y {reading.y_mm:.0f}" for reading in empty)
    return FINDINGS[Code.NOT_READ](places=places)


def dpc_unread(walls: tuple[str, ...], near_mm: float) -> str:
    """Name the walls near which nothing was read. [mm]."""
    named = ", ".join(f"wall {wall}" for wall in walls)
    return FINDINGS[Code.DPC_UNREAD](walls=named, near=units.millimetres_text(near_mm))


def unread(area: str) -> str:
    """Say that an area has no readings."""
    return FINDINGS[Code.UNREAD](area=area)


def limits(trusted_mm: float, held: AsLaidFigures) -> tuple[str, ...]:
    """Say what readings cannot show. [mm]."""
    flat = f"Flatness ({held.straightedge.value:g} mm under 3 m) and steps between units ({held.step.value:g} mm)"
    trust = f"Readings are trusted to {trusted_mm:.1f} mm (two standard deviations)"
    return (
        f"{trust}; nearer to a limit they are inconclusive.",
        "Between readings nothing was measured: dips and humps there are not seen.",
        f"{flat} are judged with a straight edge and a gauge, not with a staff.",
    )


def too_few(readings: int, area_m2: float, area: str, apart_m: float) -> str:
    """Say that readings are too few for an area. [m², m]."""
    return FINDINGS[Code.TOO_FEW_READINGS](
        readings=str(readings), paved=f"{area_m2:.1f}", area=area, apart=f"{apart_m:g}"
    )


def out_of_tolerance(reading: ReadingCheck) -> tuple[str, tuple[Option, ...]]:
    """Say how high or low a reading lies."""
    words = FINDINGS[Code.OUT_OF_TOLERANCE](
        label=reading.label,
        off=units.millimetres_text(abs(reading.deviation_mm)),
        way=_HIGH if reading.deviation_mm > 0 else _LOW,
        found=units.metres_text(reading.found_mm),
        planned=units.metres_text(reading.planned_mm),
    )
    return words, worded(("Read it again.", "Lift and relay the unit.", "Agree in writing to leave it."))


def _at_wall(wall: WallCheck) -> str:
    return (
        f"At wall {wall.wall} the paving was found {wall.min_mm:.0f} mm below the damp-proof course, "
        f"{units.millimetres_text(wall.short_mm)} less than the {wall.wanted_mm:.0f} mm that it should be"
    )


def _allowed(wall: WallCheck) -> str:
    return f"tolerance of {wall.tolerance_mm:g} mm for laying ({wall.tolerance.status.words})"


def _past(wall: WallCheck) -> str:
    if wall.tolerance_mm:
        return f"more than the {_allowed(wall)}"
    return "the plan leaves room for laying, so nothing may be taken off"


def dpc_by_tolerance(wall: WallCheck) -> tuple[str, tuple[Option, ...]]:
    """Say that a clearance is kept by the tolerance of laying alone."""
    words = FINDINGS[Code.DPC_BY_TOLERANCE](at_wall=_at_wall(wall), allowed=_allowed(wall))
    return words, worded((_AGAIN,))


def dpc_inconclusive(wall: WallCheck) -> tuple[str, tuple[Option, ...]]:
    """Say that readings cannot decide on a clearance."""
    words = FINDINGS[Code.DPC_INCONCLUSIVE](at_wall=_at_wall(wall), past=_past(wall))
    return words, worded((_AGAIN,))


def too_near_dpc(wall: WallCheck) -> tuple[str, tuple[Option, ...]]:
    """Say that a clearance is not kept."""
    ways = (
        _AGAIN,
        "Lift and relay the courses at the wall lower.",
        "Take up the course at the wall and leave a drained strip; have the detail checked.",
    )
    return FINDINGS[Code.TOO_NEAR_DPC](at_wall=_at_wall(wall), past=_past(wall)), worded(ways)


def shifted(area: str, mean_mm: float, spread_mm: float) -> str:
    """Say that all readings lie high or low together. [mm]."""
    return FINDINGS[Code.SHIFTED](
        area=area,
        off=units.millimetres_text(abs(mean_mm)),
        way=_HIGH if mean_mm > 0 else _LOW,
        spread=units.millimetres_text(spread_mm),
    )


def reverse_fall(area: str) -> tuple[str, tuple[Option, ...]]:
    """Say that paving rises the way that it should fall."""
    words = FINDINGS[Code.REVERSE_FALL](area=area)
    return words, worded(("Lift and relay to the planned fall.",))


def too_flat(area: AreaAsLaid, steepest: float, min_fall: float) -> str:
    """Say that paving falls less than it should; falls as rise over run.

    Args:
        area: The area as laid.
        steepest: Fall as found. [rise over run]
        min_fall: Least fall that it should have. [rise over run]
    """
    return FINDINGS[Code.TOO_FLAT](
        area=area.area,
        found=units.fall_text(steepest),
        planned=units.fall_text(area.planned_fall),
        least=units.fall_text(min_fall),
    )
