"""Sums of strings and tapes that hang, and of an instrument that is set up."""

from __future__ import annotations

from pavewright.setting_out.hanging._sag import sag_at_mm, sag_mm, sag_shortening_mm, slope_shortening_mm
from pavewright.setting_out.hanging._sights import height_of_collimation_mm, staff_reading_mm
from pavewright.sums import Quantity, Sum, SumRefusedError, Value

_GRAVITY_M_PER_S2 = 9.80665


def string_sag(span_mm: float, mass_kg_per_km: float, pull_n: float, part: float) -> dict[str, Value]:
    """Return how far a string hangs below the straight line between its ends, at its middle and elsewhere.

    Source: string_sag, w·L² / 8T
    """
    if min(span_mm, mass_kg_per_km, pull_n) <= 0.0 or not 0.0 <= part <= 1.0:
        message = "Span, mass and pull are more than zero, and the place lies between 0 at the start and 1 at the end."
        raise SumRefusedError(message)
    middle = sag_mm(span_mm, mass_kg_per_km, pull_n / _GRAVITY_M_PER_S2)
    return {"middle_mm": middle, "there_mm": sag_at_mm(middle, part)}


def tape_corrections(
    length_mm: float, spans: float, mass_kg_per_km: float, pull_kg: float, rise_mm: float
) -> dict[str, Value]:
    """Return what a tape reads too long because it sags between its supports and runs up a slope.

    Source: tape_corrections, sag: w²·L³ / 24P²; slope: h²/2L + h⁴/8L³
    """
    if min(length_mm, spans, pull_kg) <= 0.0 or mass_kg_per_km < 0.0 or spans != round(spans):
        message = "Length and pull are more than zero, the mass not less than zero, and the spans are counted."
        raise SumRefusedError(message)
    if abs(rise_mm) >= length_mm:
        message = "The rise is as long as the tape: measure it again."
        raise SumRefusedError(message)
    sag = spans * sag_shortening_mm(length_mm / spans, mass_kg_per_km, pull_kg)
    slope = slope_shortening_mm(length_mm, rise_mm)
    return {"sag_mm": sag, "slope_mm": slope, "level_mm": length_mm - sag - slope}


def staff_to_show(known_mm: float, backsight_mm: float, wanted_mm: tuple[float, ...]) -> dict[str, Value]:
    """Return the height of the sight, and what the staff shows at each level wanted.

    Source: definition, HC = RL + BS; reading = HC − RL
    """
    height = height_of_collimation_mm(known_mm, backsight_mm)
    if any(each > height for each in wanted_mm):
        message = "A level wanted lies above the sight: set the instrument up higher."
        raise SumRefusedError(message)
    return {
        "collimation_mm": height,
        "readings_mm": tuple(staff_reading_mm(height, each) for each in wanted_mm),
    }


HANGING_SUMS: tuple[Sum, ...] = (
    Sum(
        "string-sag",
        "Find how far a string sags",
        (
            Quantity("span_mm", "mm", "between its ends"),
            Quantity("mass_kg_per_km", "kg/km", "its mass; as many grams to a metre"),
            Quantity("pull_n", "N", "pull on it; 1 kg hung on it pulls 9.8"),
            Quantity("part", "", "how far along, 0 at its start and 1 at its end", default=0.5),
        ),
        (
            Quantity("middle_mm", "mm", "below the straight line at the middle"),
            Quantity("there_mm", "mm", "below the straight line at the place asked for"),
        ),
        "w·L² / 8T",
        "string_sag",
        string_sag,
    ),
    Sum(
        "tape-corrections",
        "Take sag and slope off a taped length",
        (
            Quantity("length_mm", "mm", "length as read"),
            Quantity("spans", "", "spans between supports, 1 where it is held at its ends alone", default=1.0),
            Quantity("mass_kg_per_km", "kg/km", "mass of the tape", default=0.0),
            Quantity("pull_kg", "kg", "pull on the tape, as a mass hung on it", default=1.0),
            Quantity("rise_mm", "mm", "from one end to the other", default=0.0),
        ),
        (
            Quantity("sag_mm", "mm", "too long by sag"),
            Quantity("slope_mm", "mm", "too long by slope"),
            Quantity("level_mm", "mm", "the level distance"),
        ),
        "sag w²·L³ / 24P² a span; slope h²/2L + h⁴/8L³",
        "tape_corrections",
        tape_corrections,
    ),
    Sum(
        "staff-to-show",
        "Find what the staff shows where a level is wanted",
        (
            Quantity("known_mm", "mm", "level of the point that the staff stands on first"),
            Quantity("backsight_mm", "mm", "what is read on it"),
            Quantity("wanted_mm", "mm", "levels wanted", "numbers"),
        ),
        (
            Quantity("collimation_mm", "mm", "height of the sight"),
            Quantity("readings_mm", "mm", "what the staff shows at each", "numbers"),
        ),
        "HC = RL + BS; reading = HC − RL",
        "definition",
        staff_to_show,
    ),
)
