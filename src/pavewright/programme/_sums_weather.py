"""Sums of hardening and of durations known by three points."""

from __future__ import annotations

import math

from pavewright import units
from pavewright.programme._maturity import (
    maturity,
    speed_by_en_form,
    speed_by_energy,
    strength_share,
)
from pavewright.programme._three_point import Duration as _Duration
from pavewright.programme._three_point import (
    ThreePointsError,
    along,
    chance_all_within,
    chance_within,
    three_point,
)
from pavewright.sums import Quantity, Sum, SumRefusedError, Value

_COLDEST = -60.0
_HOTTEST = 100.0


def _checked(temperatures: tuple[float, ...], hours: tuple[float, ...]) -> None:
    if not temperatures or len(temperatures) != len(hours) or min(hours) < 0.0:
        message = "Give as many temperatures as times, none of them less than no time."
        raise SumRefusedError(message)
    if not all(_COLDEST <= each <= _HOTTEST for each in temperatures):
        message = f"Temperatures of concrete lie between {_COLDEST:g} and {_HOTTEST:g} °C: read them again."
        raise SumRefusedError(message)


def nurse_saul(temperatures_c: tuple[float, ...], hours: tuple[float, ...], datum_c: float) -> dict[str, Value]:
    """Return the maturity of Nurse and Saul.

    Source: nurse_saul
    """
    _checked(temperatures_c, hours)
    found = maturity(temperatures_c, hours, datum_c)
    return {"maturity_c_h": found, "maturity_c_day": found / units.HOURS_PER_DAY}


def time_to_mature(wanted_c_h: float, temperature_c: float, datum_c: float, within_h: float) -> dict[str, Value]:
    """Return how long a maturity takes at a temperature, and how warm it must be to have it within a time.

    Source: nurse_saul
    """
    if wanted_c_h <= 0.0 or within_h <= 0.0 or temperature_c <= datum_c:
        message = "The maturity and the time are more than zero, and the temperature is above the datum."
        raise SumRefusedError(message)
    return {"hours": wanted_c_h / (temperature_c - datum_c), "temperature_c": wanted_c_h / within_h + datum_c}


def equivalent_age(
    temperatures_c: tuple[float, ...], hours: tuple[float, ...], energy_kj_per_mol: float, reference_c: float
) -> dict[str, Value]:
    """Return the age at the reference temperature that hardens as far, and how quickly it hardens at each.

    Source: arrhenius_maturity
    """
    _checked(temperatures_c, hours)
    if energy_kj_per_mol <= 0.0:
        message = "The activation energy is more than zero."
        raise SumRefusedError(message)
    speeds = tuple(speed_by_energy(each, reference_c, energy_kj_per_mol) for each in temperatures_c)
    age = math.fsum(speed * lasts for speed, lasts in zip(speeds, hours, strict=True))
    return {"age_h": age, "speeds": speeds}


def age_by_en_form(
    temperatures_c: tuple[float, ...], hours: tuple[float, ...], slope_k: float, constant: float
) -> dict[str, Value]:
    """Return the age at 20 °C that hardens as far by the form of EN 1992, and how quickly it hardens at each.

    Source: en_1992_from_memory
    """
    _checked(temperatures_c, hours)
    speeds = tuple(speed_by_en_form(each, slope_k, constant) for each in temperatures_c)
    return {"age_h": math.fsum(speed * lasts for speed, lasts in zip(speeds, hours, strict=True)), "speeds": speeds}


def strength_at(ages_days: tuple[float, ...], s: float) -> dict[str, Value]:
    """Return the part of its strength at 28 days that concrete has.

    Source: en_1992_from_memory
    """
    if not ages_days or min(ages_days) <= 0.0 or s <= 0.0:
        message = "Ages are more than no days, and the coefficient of the cement is more than zero."
        raise SumRefusedError(message)
    return {"shares": tuple(strength_share(each, s) for each in ages_days)}


def three_point_path(
    low: tuple[float, ...], likely: tuple[float, ...], high: tuple[float, ...], limit: float
) -> dict[str, Value]:
    """Return how long a path of parts takes that are each known by three points.

    Source: pert
    """
    if not low or not len(low) == len(likely) == len(high):
        message = "Give as many shortest times as likeliest and longest ones."
        raise SumRefusedError(message)
    try:
        parts = [three_point(a, m, b) for a, m, b in zip(low, likely, high, strict=True)]
    except ThreePointsError as problem:
        raise SumRefusedError(str(problem)) from None
    path = along(parts)
    return {
        "length": path.mean,
        "variance": path.variance,
        "sd": math.sqrt(path.variance),
        "chance": chance_within(path, limit),
        "means": tuple(part.mean for part in parts),
    }


def paths_together(means: tuple[float, ...], variances: tuple[float, ...], limit: float) -> dict[str, Value]:
    """Return the chance that paths side by side all end within a limit, and that of the longest alone.

    Source: definition
    """
    if not means or len(means) != len(variances) or min(variances) < 0.0:
        message = "Give as many means as variances, none of them less than zero."
        raise SumRefusedError(message)
    paths = [_Duration(mean, variance) for mean, variance in zip(means, variances, strict=True)]
    longest = max(paths, key=lambda path: (path.mean, path.variance))
    return {
        "chance": chance_all_within(paths, limit),
        "chances": tuple(chance_within(path, limit) for path in paths),
        "longest_alone": chance_within(longest, limit),
    }


_TEMPERATURES = Quantity("temperatures_c", "°C", "temperature of the concrete in each time", kind="numbers")
_HOURS = Quantity("hours", "h", "how long each lasts", kind="numbers")
_LIMIT = Quantity("limit", "", "time that is asked about, in the unit of the durations")
_SPEEDS = Quantity("speeds", "", "how quickly it hardens at each, against the reference", kind="numbers")
_AGE = Quantity("age_h", "h", "age at the reference temperature that hardens as far")

SUMS: tuple[Sum, ...] = (
    Sum(
        "nurse-saul",
        "Find the maturity of concrete by Nurse and Saul",
        (_TEMPERATURES, _HOURS, Quantity("datum_c", "°C", "temperature below which nothing hardens")),
        (
            Quantity("maturity_c_h", "°C·h", "maturity"),
            Quantity("maturity_c_day", "°C·day", "maturity"),
        ),
        "M = Σ (T − T0) Δt",
        "nurse_saul",
        nurse_saul,
    ),
    Sum(
        "time-to-mature",
        "Find how long a maturity takes, or how warm it has to be",
        (
            Quantity("wanted_c_h", "°C·h", "maturity that is wanted"),
            Quantity("temperature_c", "°C", "temperature of the concrete"),
            Quantity("datum_c", "°C", "temperature below which nothing hardens"),
            Quantity("within_h", "h", "time in which it is wanted"),
        ),
        (
            Quantity("hours", "h", "how long it takes at that temperature"),
            Quantity("temperature_c", "°C", "how warm it has to be to have it in time"),
        ),
        "t = M / (T − T0)",
        "nurse_saul",
        time_to_mature,
    ),
    Sum(
        "equivalent-age",
        "Find the equivalent age of concrete by its activation energy",
        (
            _TEMPERATURES,
            _HOURS,
            Quantity("energy_kj_per_mol", "kJ/mol", "apparent activation energy of the cement"),
            Quantity("reference_c", "°C", "temperature of reference", default=20.0),
        ),
        (_AGE, _SPEEDS),
        "te = Σ Δt exp(−E / R · (1 / T − 1 / Ts))",
        "arrhenius_maturity",
        equivalent_age,
    ),
    Sum(
        "age-by-en-form",
        "Find the equivalent age of concrete by the form of EN 1992, from memory",
        (
            _TEMPERATURES,
            _HOURS,
            Quantity("slope_k", "K", "slope of the form", figure="programme.en_slope_k"),
            Quantity("constant", "", "constant of the form", figure="programme.en_constant"),
        ),
        (_AGE, _SPEEDS),
        "te = Σ Δt exp(−(slope / (273 + T) − constant))",
        "en_1992_from_memory",
        age_by_en_form,
    ),
    Sum(
        "strength-share",
        "Find the part of its strength at 28 days that concrete has, by a form from memory",
        (
            Quantity("ages_days", "days", "ages at 20 °C, or equivalent to it", kind="numbers"),
            Quantity("s", "", "coefficient of the cement: rapid 0.20, normal 0.25, slow 0.38"),
        ),
        (Quantity("shares", "", "part of the strength at 28 days", kind="numbers"),),
        "β = exp(s (1 − √(28 / t)))",
        "en_1992_from_memory",
        strength_at,
    ),
    Sum(
        "three-point-path",
        "Find how long a path of parts takes that are each known by three points",
        (
            Quantity("low", "", "shortest time of each part", kind="numbers"),
            Quantity("likely", "", "likeliest time of each", kind="numbers"),
            Quantity("high", "", "longest time of each", kind="numbers"),
            _LIMIT,
        ),
        (
            Quantity("length", "", "mean of the path"),
            Quantity("variance", "", "its variance"),
            Quantity("sd", "", "its standard deviation"),
            Quantity("chance", "", "chance that it takes no longer than the limit"),
            Quantity("means", "", "mean of each part", kind="numbers"),
        ),
        "mean = (a + 4 m + b) / 6, variance = ((b − a) / 6)²",
        "pert",
        three_point_path,
    ),
    Sum(
        "paths-together",
        "Find the chance that paths side by side all end in time",
        (
            Quantity("means", "", "mean of each path", kind="numbers"),
            Quantity("variances", "", "variance of each", kind="numbers"),
            _LIMIT,
        ),
        (
            Quantity("chance", "", "chance that all end in time, the paths taken as independent"),
            Quantity("chances", "", "chance of each", kind="numbers"),
            Quantity("longest_alone", "", "chance of the longest alone, which is too hopeful"),
        ),
        "P = Π P(path ≤ limit)",
        "definition",
        paths_together,
    ),
)
