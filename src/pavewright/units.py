"""Conversions between the units a paver meets and the ones kept inside.

Inside the program lengths are millimetres, areas square metres, volumes cubic metres, masses kilograms,
money whole minor units (pence, cents) and time minutes. This is the only module in which a thousand is written.
"""

from __future__ import annotations

import math
import re

MM_PER_M = 1000.0
MM2_PER_M2 = 1_000_000.0
MM3_PER_M3 = 1_000_000_000.0
KG_PER_TONNE = 1000.0
LITRES_PER_M3 = 1000.0
MM_PER_INCH = 25.4
INCHES_PER_FOOT = 12.0
M3_PER_CUBIC_YARD = 0.764_554_857_984
MINUTES_PER_HOUR = 60.0
SECONDS_PER_HOUR = 3600.0
HOURS_PER_DAY = 24.0
KELVIN_AT_ZERO_C = 273.15
ONE_PER_KILO = 1000.0
ALL_PERCENT = 100.0
PENCE_PER_POUND = 100
"""And cents in a euro or a dollar."""

_FEET_AND_INCHES = re.compile(
    r"^\s*(?P<sign>-?)\s*(?:(?P<feet>\d+(?:\.\d+)?)\s*(?:ft|'))?"
    r"\s*(?:(?P<whole>\d+(?:\.\d+)?)?\s*(?:(?P<top>\d+)\s*/\s*(?P<bottom>\d+))?\s*(?:in|\")?)?\s*$"
)


def mm_to_m(length_mm: float) -> float:
    """Return metres for millimetres.

    >>> mm_to_m(3050.0)
    3.05
    """
    return length_mm / MM_PER_M


def m_to_mm(length_m: float) -> float:
    """Return millimetres for metres.

    >>> m_to_mm(3.05)
    3050.0
    """
    return length_m * MM_PER_M


def mm2_to_m2(area_mm2: float) -> float:
    """Return square metres for square millimetres.

    >>> mm2_to_m2(360_000.0)
    0.36
    """
    return area_mm2 / MM2_PER_M2


def mm3_to_m3(volume_mm3: float) -> float:
    """Return cubic metres for cubic millimetres.

    >>> mm3_to_m3(2e9)
    2.0
    """
    return volume_mm3 / MM3_PER_M3


def kg_to_tonnes(mass_kg: float) -> float:
    """Return tonnes for kilograms.

    >>> kg_to_tonnes(2100.0)
    2.1
    """
    return mass_kg / KG_PER_TONNE


def cubic_yards_to_m3(volume_yd3: float) -> float:
    """Return cubic metres for cubic yards, the size by which skips are named.

    >>> round(cubic_yards_to_m3(6.0), 2)
    4.59
    """
    return volume_yd3 * M3_PER_CUBIC_YARD


def m_to_km(length_m: float) -> float:
    """Return kilometres.

    >>> m_to_km(250.0)
    0.25
    """
    return length_m / 1000.0


def one_in_n_to_fall(run_per_drop: float) -> float:
    """Return a fall as rise over run for "1 in n".

    >>> one_in_n_to_fall(50.0)
    0.02
    """
    return 1.0 / run_per_drop


def fall_to_one_in_n(fall: float) -> float:
    """Return n of "1 in n" for a fall as rise over run; infinity for a level surface.

    Args:
        fall: The fall, up or down. [rise over run]

    >>> fall_to_one_in_n(0.02)
    50.0
    """
    return math.inf if fall == 0.0 else 1.0 / abs(fall)


def feet_and_inches_to_mm(text: str) -> float:
    """Return millimetres for a length written in feet and inches, such as ``4ft 1/2`` or ``6' 3 1/4"``.

    Raises:
        ValueError: the text is not a length in feet and inches.

    >>> feet_and_inches_to_mm("1ft 6in")
    457.2
    """
    match = _FEET_AND_INCHES.match(text)
    if match is None or not any(match[key] for key in ("feet", "whole", "top")):
        message = f"Write the length in feet and inches, for example 4ft 6 1/2in: {text!r} is not one."
        raise ValueError(message)
    inches = float(match["feet"] or 0) * INCHES_PER_FOOT + float(match["whole"] or 0)
    if match["top"]:
        if int(match["bottom"]) == 0:
            message = f"The fraction in {text!r} has nothing below the line."
            raise ValueError(message)
        inches += int(match["top"]) / int(match["bottom"])
    return (-1.0 if match["sign"] else 1.0) * inches * MM_PER_INCH


def mm_to_feet_and_inches(length_mm: float, parts: int = 8) -> str:
    """Return a length as feet, inches and a fraction of ``parts``.

    >>> mm_to_feet_and_inches(457.2)
    '1ft 6in'
    """
    eighths = round(abs(length_mm) / MM_PER_INCH * parts)
    whole, rest = divmod(eighths, parts)
    feet, inches = divmod(whole, int(INCHES_PER_FOOT))
    fraction = ""
    if rest:
        shared = math.gcd(rest, parts)
        fraction = f" {rest // shared}/{parts // shared}"
    return f"{'-' if length_mm < 0 and eighths else ''}{feet}ft {inches}{fraction}in"


_SIGNS = {"GBP": "£", "EUR": "€", "USD": "$"}
_NO_DECIMALS = frozenset(
    {
        *("BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW", "PYG", "RWF", "UGX", "UYI", "VND", "VUV"),
        *("XAF", "XOF", "XPF"),
    }
)
_THREE_DECIMALS = frozenset({"BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"})
_PLACES = {
    **dict.fromkeys(_NO_DECIMALS, 0),
    **dict.fromkeys(_THREE_DECIMALS, 3),
    **dict.fromkeys(("CLF", "UYW"), 4),
}
"""Decimals of currencies that have not two, as ISO 4217 lists them; from memory."""
_WITH_COMMAS = frozenset({"USD", "CAD", "AUD", "NZD", "SGD", "HKD", "MXN", "PHP"})
"""Currencies that are written with commas between thousands where they are at home."""


def money_places(currency: str) -> int:
    """Return how many decimals an amount of a currency has.

    >>> [money_places(each) for each in ("GBP", "JPY", "KWD")]
    [2, 0, 3]
    """
    return _PLACES.get(currency, 2)


def minor_per_major(currency: str) -> int:
    """Return how many of the smallest unit make one of a currency.

    >>> [minor_per_major(each) for each in ("USD", "JPY", "TND")]
    [100, 1, 1000]
    """
    return int(10 ** money_places(currency))


def grouped(value: float, places: int = 0) -> str:
    """Return a number with its thousands apart by a thin space that no line is broken at.

    Args:
        value: The number, in the unit of the words beside it. [any unit]
        places: Decimals.

    >>> grouped(1234567.891, 2).replace(chr(0x202F), " ")
    '1 234 567.89'
    """
    return f"{value:,.{places}f}".replace(",", "\u202f")


def minor_to_text(amount_minor: int, currency: str) -> str:
    """Return an amount of money with the sign of its currency, minor units behind the point.

    >>> [minor_to_text(*each).replace(chr(0x202F), " ") for each in ((123456, "GBP"), (-5, "CHF"), (1200, "JPY"))]
    ['£1 234.56', '-CHF 0.05', 'JPY 1 200']
    >>> [minor_to_text(*each).replace(chr(0x202F), " ") for each in ((123456, "USD"), (1234567, "KWD"))]
    ['$1,234.56', 'KWD 1 234.567']
    """
    minus = "-" if amount_minor < 0 else ""
    sign = _SIGNS.get(currency, f"{currency} ")
    major, minor = divmod(abs(amount_minor), minor_per_major(currency))
    whole = f"{major:,}" if currency in _WITH_COMMAS else grouped(major)
    places = money_places(currency)
    return f"{minus}{sign}{whole}" + (f".{minor:0{places}d}" if places else "")


def metres_text(length_mm: float) -> str:
    """Return a length or a level as a person reads it off a tape or a staff, in metres.

    >>> metres_text(3200.0)
    '3.200'
    """
    text = f"{mm_to_m(length_mm):.3f}"
    return text.removeprefix("-") if text == "-0.000" else text


def level_text(level_mm: float | None) -> str:
    """Return a level in metres, or that it was not read.

    >>> level_text(9950.0), level_text(None)
    ('9.950', 'not read')
    """
    return "not read" if level_mm is None else metres_text(level_mm)


def millimetres_text(length_mm: float, *, sign: bool = False) -> str:
    """Return a small length in millimetres, to a tenth where it is not whole.

    >>> millimetres_text(-9.0, sign=True)
    '-9 mm'
    >>> millimetres_text(2.25)
    '2.2 mm'
    """
    return f"{tenths_text(length_mm, sign=sign)} mm"


def tenths_text(length_mm: float, *, sign: bool = False) -> str:
    """Return a small length in millimetres without its unit, to a tenth where it is not whole.

    >>> tenths_text(-9.0, sign=True)
    '-9'
    """
    text = f"{length_mm:{'+' if sign else ''}.1f}".removesuffix(".0")
    return "0" if text in {"-0", "+0"} else text


def fall_text(fall: float) -> str:
    """Return a fall in the trade's words.

    Args:
        fall: The fall, up or down. [rise over run]

    >>> fall_text(1.0 / 60.0), fall_text(1.0 / 9.4), fall_text(0.0)
    ('1 in 60', '1 in 9.4', 'level')
    """
    run = math.inf if abs(fall) < _LEVEL else 1.0 / abs(fall)
    return "level" if math.isinf(run) else f"1 in {run:.{int(run < _STEEP_ONE_IN)}f}".removesuffix(".0")


_STEEP_ONE_IN = 20.0
"""Below this n of 1 in n a whole one says too little: 1 in 9.4 is no 1 in 9. [-]"""
_LEVEL = 1e-6
"""A fall of a millimetre in a kilometre is level. [-]"""


def celsius_to_kelvin(temperature_c: float) -> float:
    """Return kelvin for degrees Celsius.

    >>> celsius_to_kelvin(20.0)
    293.15
    """
    return temperature_c + KELVIN_AT_ZERO_C


def kilo_to_one(value_kilo: float) -> float:
    """Return a value in its unit for one in thousands of it, such as joules for kilojoules. [unit].

    Args:
        value_kilo: The value. [thousand of the unit]

    >>> kilo_to_one(34.0)
    34000.0
    """
    return value_kilo * ONE_PER_KILO
