"""What is noticed about ground, use and unit."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.buildup._codes import Code
from pavewright.findings import Finding, Severity, worded
from pavewright.job import Bedding, Soil, Use, WaterTable

if TYPE_CHECKING:
    from pavewright.buildup._figures import UnitFigures
    from pavewright.job import Area, Ground, PavingUnit
    from pavewright.rules import Figure


def ground_findings(
    ground: Ground, cbr: float, from_soil: Figure | None, known: UnitFigures, *, vehicles: bool
) -> tuple[Finding, ...]:
    """Return findings on the ground of the whole site.

    Args:
        ground: The ground as entered.
        cbr: Its bearing ratio. [%]
        from_soil: The figure that gives it by the soil; None where it was measured.
        known: Figures of this room.
        vehicles: Whether wheels run anywhere on the site.
    """
    found = []
    if ground.soil is Soil.UNKNOWN and from_soil is not None:
        found.append(
            Finding(
                Code.SOIL_UNKNOWN,
                Severity.CHECK,
                "ground",
                "Nobody has looked at the soil: it is taken as soft. Dig a trial hole below formation and name it.",
                figure=from_soil,
                options=worded(("Dig a trial hole.", "Keep the thicker build-up.")),
            )
        )
    limit = known.design_from_cbr
    if cbr < limit.value:
        found.append(
            Finding(
                Code.GROUND_TOO_WEAK,
                Severity.STOP if vehicles else Severity.CHECK,
                "ground",
                f"The ground is weak (bearing ratio {cbr:g} %): below {limit.value:g} % no table of thicknesses "
                f"holds, and the ground needs a design of its own.",
                cbr,
                limit.value,
                "%",
                limit,
                options=worded(
                    (
                        "Measure the bearing ratio at formation.",
                        "Dig soft ground out and replace it with compacted stone.",
                        "Ask an engineer.",
                    )
                ),
            )
        )
    if ground.soil in {Soil.HEAVY_CLAY, Soil.SILTY_CLAY}:
        found.append(
            Finding(
                Code.CLAY_MOVES,
                Severity.NOTE,
                "ground",
                "Clay shrinks when it dries and swells when it is wet again: what is laid on baked clay may lift in "
                "winter. Cover formation the same day, do not lay on cracked clay, and read levels again after a "
                "winter.",
            )
        )
    if ground.water_table is WaterTable.HIGH:
        found.append(
            Finding(
                Code.WATER_TABLE_HIGH,
                Severity.CHECK,
                "ground",
                "Water stands high in the ground: formation may be soft, and a soakaway may not empty.",
                options=worded(
                    ("Dig in a dry spell and cover formation the same day.", "Drain formation to an outfall.")
                ),
            )
        )
    return tuple(found)


def area_findings(area: Area, unit: PavingUnit, known: UnitFigures) -> tuple[Finding, ...]:
    """Return findings where unit, bed and use do not go together."""
    place = f"area {area.name}"
    if area.laying.bedding is Bedding.SAND_ON_SUB_BASE:
        return _on_sand(area, unit, place, known)
    found = []
    if area.use is not Use.FOOT and area.laying.bedding is Bedding.MORTAR_ON_SUB_BASE:
        words = f"{area.name} is laid in mortar over loose stone and vehicles run on it: units will come loose."
        ways = ("Lay blocks on sand.", "Put a concrete base under the mortar bed.")
        found.append(Finding(Code.RIGID_ON_UNBOUND, Severity.STOP, place, words, options=worded(ways)))
    if unit.low_absorption:
        words = f"{unit.name} takes up little water: coat the whole back with a bond coat and lay wet on wet."
        found.append(Finding(Code.BOND_COAT, Severity.NOTE, place, words))
    return tuple(found)


def _on_sand(area: Area, unit: PavingUnit, place: str, known: UnitFigures) -> tuple[Finding, ...]:
    """Return findings on units over a loose bed: too thin for wheels, too large, too thin at all."""
    thin, large, stone = known.block_for_vehicles, known.largest_for_vehicles, known.stone_on_sand
    thick, longest = unit.thickness_mm, max(unit.length_mm, unit.width_mm)
    vehicles = area.use is not Use.FOOT
    found = []
    if vehicles and thick < thin.value:
        words = f"{unit.name} is {thick:g} mm thick; {thin.label}: {thin.value:g} mm."
        ways: tuple[str, ...] = ("Choose a thicker unit.",)
        found.append(
            Finding(
                Code.UNIT_TOO_THIN,
                Severity.STOP,
                place,
                words,
                thick,
                thin.value,
                "mm",
                thin,
                options=worded(ways),
            )
        )
    if vehicles and longest > large.value:
        words = f"{unit.name} is {longest:g} mm long; large units on sand rock and crack under wheels."
        ways = ("Choose a smaller unit.", "Lay on mortar over a concrete base.")
        found.append(
            Finding(
                Code.UNIT_TOO_LARGE,
                Severity.CHECK,
                place,
                words,
                longest,
                large.value,
                "mm",
                large,
                options=worded(ways),
            )
        )
    if thick < stone.value:
        words = f"{unit.name} is {thick:g} mm thick; {stone.label}: {stone.value:g} mm."
        ways = ("Lay on a full mortar bed over concrete.", "Choose a thicker unit.")
        found.append(
            Finding(
                Code.TOO_THIN_FOR_SAND,
                Severity.CHECK,
                place,
                words,
                thick,
                stone.value,
                "mm",
                stone,
                options=worded(ways),
            )
        )
    return tuple(found)


def opening_findings(area: Area) -> tuple[Finding, ...]:
    """Return what is not known of the edges round openings of an area: nothing is said of them by the document."""
    if not area.holes:
        return ()
    many = len(area.holes) > 1
    which = f"{len(area.holes)} openings" if many else "an opening"
    held = " On sand they open without an edging all round." if area.laying.bedding is Bedding.SAND_ON_SUB_BASE else ""
    words = (
        f"{area.name} has {which} inside it. What holds {'their' if many else 'its'} edges, and how far the ground "
        f"inside lies below the paving, is not known and was not looked at.{held} Where the ground lies lower than an "
        f"edging holds, a wall is needed; neither is in the price."
    )
    return (Finding(Code.OPENING_EDGES_UNKNOWN, Severity.CHECK, f"area {area.name}", words),)
