"""What is said of what nobody knows of a build-up."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.pipeline._types import Missing
    from pavewright.rules import Figure

DIG = "The dig is not known: nobody read the levels of the ground there."
PRICE = "The price is not known."
DAYS = "The days of work are not known."
MASS = "The mass is not known: nothing that is bought has one."
CARBON = "The carbon is not known: nothing that is bought has a factor."
SOIL_UNKNOWN = "Nobody has looked at the soil: it is taken as soft, and every thickness hangs on that."
SOIL_ASSUMED = "The soil is assumed, nobody dug a hole: every thickness hangs on it."
BEARING_NOT_MEASURED = "The bearing ratio goes by the soil and was not measured."
WATER_TABLE = "Nobody has looked how the ground water stands: where it is high, no thickness here holds."
FROST = "How deep the ground freezes here is not known: no build-up is made thicker for it."
STORAGE = (
    "How much rain its stone has to store is not known: it takes the rain of the place, and a surface on one fall. Of "
    "any other, ask for a design."
)
SEALED = "What roofs and sealed ground would drain on to it was not said: enter their area, zero where there are none."
INFILTRATION = (
    "How fast water goes into this ground below the paving is not known: dig a pit there and time it. "
    "A test for a soakaway elsewhere on the site does not answer this."
)
CLAY = "The ground is clay, which takes hardly any water: no permeable paving is planned on it."
WATER_HIGH = "Ground water stands high: no permeable paving is planned over it."
ONLY_BLOCKS = "Permeable paving is planned of blocks alone: of other units, ask their maker for a design."
PERMEABLE_UNIT = "Whether these units and their joints let water through is not known: ask their maker."
HOUSE_DISTANCE = (
    "No wall of the house is measured, so how near it stands is not known: water in the ground may harm its footing."
)


def reason(words: str, missing: Sequence[Missing]) -> str:
    """Say that a figure is not known, and what to do first."""
    return f"{words} {missing[0].words}" if missing else words


def joints(width_mm: float) -> str:
    """Say that the joints are still those of the other bed. [mm]."""
    return (
        f"Its joints are planned as they are entered, {width_mm:g} mm. Sand and mortar take joints of different "
        "widths: set the width that the units and the new bed ask for, and plan again."
    )


def house_near(distance_mm: float, limit: Figure) -> str:
    """Say how far the house is, and that this is no verdict. [mm]."""
    return (
        f"The house stands {units.mm_to_m(distance_mm):.2f} m from it. A soakaway keeps {limit.value:g} m "
        "from a building; what water in the ground may do to the footing here is for an engineer to say."
    )


def weak_ground(cbr_percent: float, limit: Figure) -> str:
    """Say that the usual detail does not hold. [%]."""
    return (
        f"The ground has a bearing ratio of {cbr_percent:g} %: the usual detail assumes {limit.value:g} % or more, "
        "and weaker ground takes more stone, capping or a grid. How much is from memory or not known: ask for a design."
    )


def frost(build_up_mm: float, limit: Figure) -> str:
    """Say what a road asks for against frost, beside what is planned. [mm]."""
    return (
        f"{FROST} A road keeps soil that frost can lift {limit.value:g} mm below its surface; "
        f"this build-up is {build_up_mm:g} mm."
    )
