"""The sentences on ground, services, roots and walls, in one place: each takes facts and gives what is said."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.earthworks._fill import layers_in_words
from pavewright.earthworks._types import Compactor
from pavewright.findings import worded

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.earthworks._types import AreaDig, FillLayers, LayerCompaction, TopsoilAllowance
    from pavewright.findings import Option
    from pavewright.job import Service, Tree

Said = tuple[str, tuple["Option", ...]]
"""What is said, and what can be done."""


def no_ground() -> str:
    """Say that nobody levelled the ground."""
    return (
        "There are no spot levels of the ground, so the dig is not known. Read the staff on the ground at every corner "
        "and every 3 m inside."
    )


def services_unknown() -> str:
    """Say that no service is entered."""
    return (
        "No service is entered. That does not mean that there is none: ask for the records and have the ground "
        "traced before anybody digs."
    )


def service_in_dig(
    service: Service, near_mm: float, areas: Sequence[str], depth_mm: float | None, *, meets: bool
) -> Said:
    """Say that a service runs near the dig of areas, and how deep the dig goes there, where that is known. [mm]."""
    words = f"{service.name} ({service.kind}) runs within {near_mm:.0f} mm of the dig of {', '.join(areas)}."
    if service.depth_mm is None:
        words += " Its depth is not known."
    elif depth_mm is None:
        words += f" It is said to lie {service.depth_mm:.0f} mm down; how deep the dig goes there is not known."
    elif meets:
        words += (
            f" It is said to lie {service.depth_mm:.0f} mm down and the dig goes {depth_mm:.0f} mm down there: they "
            "meet."
        )
    else:
        words += f" It is said to lie {service.depth_mm:.0f} mm down; records of depth are often wrong."
    return (
        f"{words} Trace it, mark it and dig by hand beside it.",
        worded(("Move the edge of the paving away from it.", "Have its owner lower, move or protect it.")),
    )


def roots(tree: Tree, away_mm: float, reach_mm: float) -> Said:
    """Say how near the dig comes to a tree, and whether it is protected. [mm]."""
    law = {
        True: " It is protected: ask the council before any digging.",
        False: "",
        None: " Whether it is protected is not known: ask the council first.",
    }[tree.protected]
    words = (
        f"The dig comes to {units.metres_text(away_mm)} m of {tree.name}; its roots reach about "
        f"{units.metres_text(reach_mm)} m.{law}"
    )
    return words, worded(("Keep the paving away from it.", "Lay on a shallow base dug by hand, roots kept."))


def near_wall(wall: str, depth_mm: float) -> Said:
    """Say how deep the dig goes beside a wall. [mm]."""
    words = (
        f"Beside wall {wall} the dig goes {depth_mm:.0f} mm below the ground. Look at the footing in a trial hole "
        "first: never dig below or into it."
    )
    return words, worded(("Dig and fill in short lengths.", "Leave a margin along the wall unpaved."))


def ground_run_on(dig: AreaDig) -> str:
    """Say how much of a dig lies past the spot levels."""
    return (
        f"{dig.beyond_m2:.1f} of {dig.dig_m2:.1f} m² of the dig of {dig.area} lie past the outermost spot levels: "
        f"there the ground is extrapolated. Read the staff on its far corners."
    )


def topsoil_unknown(area: str, known: TopsoilAllowance) -> Said:
    """Ask how deep the topsoil is, and say what may be expected."""
    words = (
        f"How deep is the topsoil of {area}? Nobody has measured it, and all of it is dug away. "
        f"{known.depth_mm.low:g} to {known.depth_mm.high:g} mm may be expected: {known.dig_m3.low:.1f} to "
        f"{known.dig_m3.high:.1f} m³ more to dig and {known.fill_m3.low:.1f} to {known.fill_m3.high:.1f} m³ more fill "
        f"than is measured. It is priced as a provisional sum."
    )
    return words, worded(
        ("Dig a trial hole, measure the soil that holds roots, and enter it; zero where there is none.",)
    )


def fill(dig: AreaDig, layers: FillLayers) -> Said:
    """Say how far formation stands over the ground, and how the fill under it is compacted."""
    ways: list[str] = []
    if layers.plate is Compactor.UNKNOWN:
        ways.append("Enter the plate's mass over the area of its sole: a heavier one takes thicker layers.")
    elif layers.passes is None:
        ways.append("Hire a heavier plate: no number of passes is known for this one.")
    once = "" if dig.topsoil is not None else " once the topsoil is off"
    more = " Topsoil of unknown depth makes it deeper." if dig.topsoil is not None else ""
    words = (
        f"Formation of {dig.area} stands up to {dig.fill_depth_mm:.0f} mm over the ground{once}: "
        f"{dig.volumes.fill_m3:.2f} m³ of fill go under it, in {layers_in_words(layers)}. Never topsoil.{more}"
    )
    return words, worded(tuple(ways))


def plate_too_light(courses: Sequence[LayerCompaction]) -> Said:
    """Say that the plate is lighter than any of which passes are known."""
    areas = ", ".join(dict.fromkeys(each.area for each in courses))
    words = (
        f"The plate is lighter over its sole than any with known passes: how often it has to go over the stone of "
        f"{areas} is not known, and more passes do not make up for weight."
    )
    return words, worded(("Hire a heavier plate.",))


def deep_dig(area: str, deep_mm: float) -> str:
    """Say how deep the dig of an area is where it is deepest. [mm]."""
    return f"The dig of {area} is {deep_mm:.0f} mm deep in places. Have the sides looked at before anybody goes in."


def found_outside(name: str, counted_m2: float, asked_m2: float) -> str:
    """Say that what was found is larger than the dig that it lies in, or leaves it. [m²]."""
    return (
        f"{name} is said to take up {asked_m2:.2f} m²; {counted_m2:.2f} m² of it lie within the dig and are counted. "
        "Look again at where it lies."
    )


def found_drain(name: str) -> str:
    """Say what nobody knows of a drain that was found."""
    return (
        f"{name}: whose it is, and what runs in it, is not known. Stop digging there, trace it both ways, and ask the "
        "owner or the sewer undertaker before it is built over, moved or cut."
    )


def found_sum(name: str, plan: str, depth_mm: float) -> str:
    """Return the sum of a find: what it takes up in plan, times how deep it is. [mm]."""
    return f"{name}: {plan} × {depth_mm:g} mm"


def found_note(*, broken: bool) -> str:
    """Say what happens to a find."""
    return "broken out within the dig" if broken else "dug below formation, filled with stone"
