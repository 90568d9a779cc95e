"""Lengths as people type them: what a text means, or what it may mean where that is not clear.

A text with its unit is taken as it stands. A bare number is millimetres where that is usual for what is asked and no
other reading is; else both readings are given, and a person says which. The scripts of the pages hold a twin
(``lib/lengths.js``) to the same answers.
"""

from __future__ import annotations

import re
from enum import StrEnum

from pavewright.typed._typed import LONGEST_TEXT, NONE, NUMBER, Typed
from pavewright.units import INCHES_PER_FOOT, MM_PER_INCH, MM_PER_M

_MM_PER_CM = 10.0
_LEVELS_REACH_MM = 3000.0
"""Levels of one job lie within this of their middle. [mm]"""


class LengthKind(StrEnum):
    """What kind of length a field takes: it decides which bare numbers are taken as millimetres and which are asked."""

    SITE = "site"
    RUN = "run"
    PLACE = "place"
    OFFSET = "offset"
    SIZE = "size"
    THICKNESS = "thickness"
    JOINT = "joint"
    ACCURACY = "accuracy"
    READING = "reading"
    LEVEL = "level"


USUAL_MM: dict[LengthKind, tuple[float, float, float]] = {
    LengthKind.SITE: (30.0, 100_000.0, 100_000.0),
    LengthKind.RUN: (300.0, 100_000.0, 100_000.0),
    LengthKind.PLACE: (30.0, 10_000_000.0, 1_000_000.0),
    LengthKind.OFFSET: (1.0, 10_000.0, 10_000.0),
    LengthKind.SIZE: (20.0, 10_000.0, 10_000.0),
    LengthKind.THICKNESS: (5.0, 1000.0, 1000.0),
    LengthKind.JOINT: (0.5, 50.0, 50.0),
    LengthKind.ACCURACY: (0.1, 100.0, 100.0),
    LengthKind.READING: (5.0, 10_000.0, 10_000.0),
    LengthKind.LEVEL: (0.0, 10_000_000.0, 10_000_000.0),
}
"""Of each kind the smallest and the greatest usual value, and the greatest likely to be written in metres. [mm]"""


_BARE = re.compile(rf"(-?)({NUMBER})")
_METRIC = re.compile(rf"(-?)({NUMBER}) ?(mm|cm|m)")
_METRES_AND = re.compile(rf"(-?)({NUMBER}) ?m ({NUMBER}) ?(mm|cm)")
_FRACTION = r"([0-9]{1,4}) ?/ ?([0-9]{1,4})"
_INCH_PART = rf"(?:({NUMBER})(?:[ -]{_FRACTION})?|{_FRACTION})"
_FEET = re.compile(rf"(-?)({NUMBER}) ?ft(?: ?-? ?{_INCH_PART} ?(?:in)?)?")
_INCHES = re.compile(rf"(-?){_INCH_PART} ?in")
_THOUSANDS = re.compile(r"-?[0-9]{1,3}(?:,[0-9]{3}){2,}(?:\.[0-9]+)?|-?[0-9]{1,3},[0-9]{3}\.[0-9]+")
_ONE_COMMA = re.compile(r"(-?[0-9]{1,3}),([0-9]{3})(?![0-9])")
_SPACED = re.compile(r"(?<![0-9.])([0-9]{1,3})((?: [0-9]{3})+)(?![0-9/])")
_WORDS = (
    ("millimetres?|millimeters?", "mm"),
    ("centimetres?|centimeters?", "cm"),
    ("metres?|meters?", "m"),
    ("feet|foot", "ft"),
    ("inches|inch", "in"),
)
_SIGNS = str.maketrans(
    {
        "\N{MINUS SIGN}": "-",
        "\N{EN DASH}": "-",
        "\N{RIGHT SINGLE QUOTATION MARK}": "'",
        "\N{PRIME}": "'",
        "\N{RIGHT DOUBLE QUOTATION MARK}": '"',
        "\N{DOUBLE PRIME}": '"',
        "\N{FRACTION SLASH}": "/",
    }
)
_PARTS = {
    "\N{VULGAR FRACTION ONE HALF}": "1/2",
    "\N{VULGAR FRACTION ONE QUARTER}": "1/4",
    "\N{VULGAR FRACTION THREE QUARTERS}": "3/4",
    "\N{VULGAR FRACTION ONE EIGHTH}": "1/8",
    "\N{VULGAR FRACTION THREE EIGHTHS}": "3/8",
    "\N{VULGAR FRACTION FIVE EIGHTHS}": "5/8",
    "\N{VULGAR FRACTION SEVEN EIGHTHS}": "7/8",
}
_MM_OF = {"mm": 1.0, "cm": _MM_PER_CM, "m": MM_PER_M}


def length_typed(text: str, kind: LengthKind = LengthKind.SITE, near_mm: float | None = None) -> Typed:
    """Return what a typed length means, in millimetres.

    Args:
        text: As typed: 6000, 6.0 m, 600cm, 19' 8 1/2", 6 1/4 in.
        kind: What is measured.
        near_mm: Middle of the other levels of the job, for a level. [mm]

    >>> length_typed("6.0").choices
    (('6.0 mm', 6.0), ('6.0 m', 6000.0))
    >>> length_typed("6.0 m").value
    6000.0
    """
    clean = _clean(text)
    if len(clean) > LONGEST_TEXT:
        return NONE
    if _ONE_COMMA.search(clean) and not _THOUSANDS.match(clean):
        return _with_comma(clean, kind, near_mm)
    clean = clean.replace(",", "") if _THOUSANDS.match(clean) else clean.replace(",", ".")
    bare = _BARE.fullmatch(clean)
    if bare:
        return _bare(bare[1], bare[2], kind, near_mm)
    value = _with_unit(clean)
    return NONE if value is None else Typed(value)


def _clean(text: str) -> str:
    """Return a text with the signs and words of one hand."""
    clean = text.translate(_SIGNS).lower()
    for sign, part in _PARTS.items():
        clean = clean.replace(sign, f" {part}")
    clean = re.sub(r"\s+", " ", clean).strip().replace("''", '"')
    clean = clean.replace("'", "ft").replace('"', "in")
    for word, short in _WORDS:
        clean = re.sub(rf"(?<![a-z])(?:{word})(?![a-z])", short, clean)
    clean = re.sub(r"^- ", "-", clean)
    return _SPACED.sub(lambda found: found[1] + found[2].replace(" ", ""), clean)


def _with_comma(clean: str, kind: LengthKind, near_mm: float | None) -> Typed:
    """Read a text with one comma before three figures: of thousands, or the point of a decimal."""
    thousands, decimal = _ONE_COMMA.sub(r"\1\2", clean, count=1), _ONE_COMMA.sub(r"\1.\2", clean, count=1)
    bare = _BARE.fullmatch(thousands)
    if bare:  # 6,000 mm and 6.000 m are one length
        return _bare(bare[1], bare[2], kind, near_mm)
    one, other = _with_unit(thousands), _with_unit(decimal)
    if one is None or other is None:
        return NONE
    return Typed(None, ((thousands, one), (decimal, other)))


def _bare(sign: str, figures: str, kind: LengthKind, near_mm: float | None) -> Typed:
    """Read a number without a unit."""
    size, low, high, longest = float(figures), *USUAL_MM[kind]
    value = -size if sign and size else size
    pointed = "." in figures
    if size == 0.0:
        return Typed(0.0, without_unit=True)
    in_metres = low <= size * MM_PER_M <= longest
    if kind is LengthKind.READING and in_metres and re.fullmatch(r"[0-9]\.[0-9]{3}", figures):
        return Typed(value * MM_PER_M, without_unit=True)  # a staff is read in metres to the millimetre
    usual = low <= size <= high and not (pointed and in_metres)
    if kind is LengthKind.LEVEL and near_mm is not None:
        usual = usual and not _other_unit(value, near_mm)
    if usual:
        return Typed(value, without_unit=True)
    units = ["mm"]
    if in_metres:
        units.append("m")
    elif low <= size * _MM_PER_CM <= high and size < low:
        units.append("cm")
    return Typed(None, tuple((f"{sign}{figures} {unit}", value * _MM_OF[unit]) for unit in units), without_unit=True)


def _other_unit(value: float, near_mm: float) -> bool:
    """Return whether a level lies far from the others and comes among them in metres or centimetres."""
    if abs(value - near_mm) <= _LEVELS_REACH_MM:
        return False
    return any(abs(value * times - near_mm) <= _LEVELS_REACH_MM for times in (MM_PER_M, _MM_PER_CM))


def _with_unit(clean: str) -> float | None:
    """Return the millimetres of a length with its unit; nothing where it is none."""
    both = _METRES_AND.fullmatch(clean)
    if both:
        return _signed(both[1], float(both[2]) * MM_PER_M + float(both[3]) * _MM_OF[both[4]])
    metric = _METRIC.fullmatch(clean)
    if metric:
        return _signed(metric[1], float(metric[2]) * _MM_OF[metric[3]])
    feet = _FEET.fullmatch(clean)
    found = feet or _INCHES.fullmatch(clean)
    if not found:
        return None
    inches = _inches(*found.groups()[2 if feet else 1 :])
    if inches is None:
        return None
    whole = float(feet[2]) * INCHES_PER_FOOT if feet else 0.0
    return _signed(found[1], (whole + inches) * MM_PER_INCH)


def _signed(sign: str, value: float) -> float:
    return -value if sign else value


def _inches(
    whole: str | None, top: str | None, bottom: str | None, only_top: str | None, only_bottom: str | None
) -> float | None:
    """Return inches with their fraction; nothing where the fraction has zero below the line."""
    over, under = top or only_top, bottom or only_bottom
    if over and under:
        return float(whole or 0) + float(over) / float(under) if float(under) else None
    return float(whole or 0)
