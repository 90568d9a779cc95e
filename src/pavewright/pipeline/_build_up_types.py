"""What comes of other build-ups."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pavewright.buildup import Regime
    from pavewright.findings import FieldChange, Finding
    from pavewright.job import BaseRule, Bedding, Fault, Soil, WaterTable
    from pavewright.pipeline._carbon import Carbon
    from pavewright.pipeline._types import Missing
    from pavewright.quantities import Gap, ItemKey


class NotKnownKind(StrEnum):
    """What is not known of a build-up."""

    DIG = "dig"
    PRICE = "price"
    DAYS = "days"
    MASS = "mass"
    CARBON = "carbon"
    SOIL_UNKNOWN = "soil_unknown"
    SOIL_ASSUMED = "soil_assumed"
    BEARING_NOT_MEASURED = "bearing_not_measured"
    WATER_TABLE = "water_table"
    FROST = "frost"
    STORAGE = "storage"
    INFILTRATION = "infiltration"
    PERMEABLE_UNIT = "permeable_unit"
    HOUSE_NEAR = "house_near"
    HOUSE_DISTANCE = "house_distance"
    JOINTS = "joints"
    WEAK_GROUND = "weak_ground"
    SEALED_GROUND = "sealed_ground"
    CLAY = "clay"
    WATER_HIGH = "water_high"


@dataclass(frozen=True, slots=True)
class NotKnown:
    """One thing that is not known.

    Attributes:
        kind: What it is.
        words: What to look at, in a sentence.
    """

    kind: NotKnownKind
    words: str


@dataclass(frozen=True, slots=True)
class BuildUpFigures:
    """What a build-up comes to, of the whole job but for its two depths; None is not known.

    Attributes:
        build_up_mm: All layers of the area. [mm]
        dig_mm: Mean depth of the dig of the area; fill is not set off against it. [mm]
        dig_m3: What is dug, in the ground. [m³]
        fill_m3: What is filled under formation, compacted. [m³]
        total_minor: The price with tax, as far as its items have prices. [minor units]
        mass_t: Mass of what is bought, of what has a known mass. [t]
        days: Days on which somebody works.
        carbon: Carbon of what is bought.
    """

    build_up_mm: float | None = None
    dig_mm: float | None = None
    dig_m3: float | None = None
    fill_m3: float | None = None
    total_minor: int | None = None
    mass_t: float | None = None
    days: int | None = None
    carbon: Carbon | None = None


@dataclass(frozen=True, slots=True)
class GroundTaken:
    """The ground that thicknesses go by.

    Attributes:
        soil: Its class as entered.
        cbr_percent: Bearing ratio that is taken. [%]
        measured: Whether it was measured; else it goes by the soil.
        water_table: How ground water stands as entered.
    """

    soil: Soil
    cbr_percent: float
    measured: bool
    water_table: WaterTable


@dataclass(frozen=True, slots=True)
class Alternative:
    """A build-up that an area could have.

    Attributes:
        number: Place of its area in the job, from 0.
        area: Name of the area.
        bedding: How its units are carried; None for permeable paving of which no plan is made, as not enough is known.
        rule: Whose rule gives what lies under the bed.
        figures: What it comes to.
        house_mm: Nearest wall of the house to the area; None where no wall of a house is measured. [mm]
        chosen: Whether the job has it.
        changes: What it changes in the job document; nothing where it is chosen or cannot be planned.
        gaps: What has no price in it.
        in_one_price_only: What keeps its price from being set against that of the chosen one: it is in neither price,
            and the two take different amounts of it.
        no_mass: What is bought without a known mass; it is not in the mass.
        regimes: What published rules say, the one that decides first.
        findings: Of the chosen one, its stops and checks; of another, those that the job does not have already.
        stays: Stops of the job that stay with it.
        ends: Stops of the job that it ends.
        not_known: What is not known of it.
        faults: Why it makes no job; nothing where it makes one.
    """

    number: int
    area: str
    bedding: Bedding | None
    rule: BaseRule
    figures: BuildUpFigures
    house_mm: float | None
    chosen: bool = False
    changes: tuple[FieldChange, ...] = ()
    gaps: tuple[Gap, ...] = ()
    in_one_price_only: tuple[Gap, ...] = ()
    no_mass: tuple[tuple[ItemKey, str], ...] = ()
    regimes: tuple[Regime, ...] = ()
    findings: tuple[Finding, ...] = ()
    stays: tuple[Finding, ...] = ()
    ends: tuple[Finding, ...] = ()
    not_known: tuple[NotKnown, ...] = ()
    faults: tuple[Fault, ...] = ()

    @property
    def price_comparable(self) -> bool:
        """Whether its price can be set against that of the chosen one: what differs is known, and has a price."""
        known = self.figures.total_minor is not None and self.figures.dig_m3 is not None
        return known and not self.in_one_price_only


@dataclass(frozen=True, slots=True)
class BuildUpChoice:
    """The build-ups that a job could have.

    Attributes:
        ground: The ground that thicknesses go by; None where nothing is compared.
        alternatives: By area, the chosen one first.
        refused: Those that bring a stop which the job does not have, or make no job.
        missing: What has to be known before anything is compared.
        faults: Readings that contradict each other, where they are the reason.
    """

    ground: GroundTaken | None
    alternatives: tuple[Alternative, ...]
    refused: tuple[Alternative, ...]
    missing: tuple[Missing, ...]
    faults: tuple[Fault, ...]
