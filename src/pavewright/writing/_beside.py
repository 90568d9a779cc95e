"""Imperial measures beside metric ones, where something is printed: nothing is decided by it."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

from pavewright import units
from pavewright.writing._lengths import feet, feet_decimal
from pavewright.writing._manner import now
from pavewright.writing._temperatures import celsius_to_fahrenheit

if TYPE_CHECKING:
    from collections.abc import Callable

_NUMBER = r"[+\-−]?\d{1,3}(?:[\u202f,]\d{3})+(?:\.\d+)?|[+\-−]?\d+(?:\.\d+)?"
_JOIN = r"(?: ?[×x–] ?| to | and | or |, )"
_LB_PER_KG, _YD3_PER_M3, _FT2_PER_M2, _TONS_PER_T = 2.204_622_6, 1.307_950_6, 10.763_910_4, 1.102_311_3
_GPM_PER_L_S, _GALLONS_PER_LITRE = 15.850_323, 0.264_172_05


def _plain(factor: float, unit: str) -> Callable[[float], str]:
    def written(value: float) -> str:
        found = value * factor
        places = 0 if abs(found) >= 100.0 else 1 if abs(found) >= 10.0 else 2  # noqa: PLR2004
        return f"{found:,.{places}f} {unit}"

    return written


_UNITS: dict[str, Callable[[float], str]] = {
    "mm": feet,
    "cm": lambda value: feet(value * 10.0),
    "m": lambda value: feet(units.m_to_mm(value)),
    "m²": _plain(_FT2_PER_M2, "sq ft"),
    "m2": _plain(_FT2_PER_M2, "sq ft"),
    "m³": _plain(_YD3_PER_M3, "cu yd"),
    "m3": _plain(_YD3_PER_M3, "cu yd"),
    "kg": _plain(_LB_PER_KG, "lb"),
    "t": _plain(_TONS_PER_T, "short tons"),
    "tonnes": _plain(_TONS_PER_T, "short tons"),
    "litres": _plain(_GALLONS_PER_LITRE, "gal"),
    "l/s": _plain(_GPM_PER_L_S, "gal/min"),
    "mm/h": _plain(1.0 / units.MM_PER_INCH, "in/h"),
    "°C": lambda value: f"{celsius_to_fahrenheit(value):.0f} °F",
}
_SHEET_UNITS: dict[str, tuple[float, str]] = {
    "mm": (1.0 / units.MM_PER_INCH, "in"),
    "m": (units.MM_PER_M / (units.MM_PER_INCH * units.INCHES_PER_FOOT), "ft"),
    "m²": (_FT2_PER_M2, "sq ft"),
    "m2": (_FT2_PER_M2, "sq ft"),
    "m³": (_YD3_PER_M3, "cu yd"),
    "m3": (_YD3_PER_M3, "cu yd"),
    "kg": (_LB_PER_KG, "lb"),
    "t": (_TONS_PER_T, "short tons"),
    "litre": (_GALLONS_PER_LITRE, "gal"),
}
"""What one of a unit is in the imperial one, for sums in a workbook."""


def imperial_unit(unit: str) -> tuple[float, str] | None:
    """Return what one of a metric unit is in the imperial one, and its sign; None for a unit that has none.

    >>> imperial_unit("m³"), imperial_unit("each")
    ((1.3079506, 'cu yd'), None)
    """
    return _SHEET_UNITS.get(unit)


_LENGTH = re.compile(
    rf"(?<![\w./])(?P<first>{_NUMBER})(?P<more>(?:{_JOIN}(?:{_NUMBER})){{0,5}})[ \u00a0\u202f]"
    rf"(?P<unit>mm/h|mm|cm|m²|m³|m2|m3|m|kg|tonnes|t|litres|l/s|°C)(?![\w²³/(])"
    r"(?! \([^)]*(?:in|ft|lb|yd|°F|tons|gal|/h)\))"
)
_SEPARATE = re.compile(rf"({_NUMBER})")


def beside(text: str) -> str:
    """Return a text in which each metric measure has its imperial one behind it, rounded as it is printed.

    >>> beside("At least 150 mm below, on 100 to 200 mm of stone; 2.40 m wide.")
    'At least 150 mm (5 7/8 in) below, on 100 to 200 mm (3 7/8 in to 7 7/8 in) of stone; 2.40 m (7 ft 10 1/2 in) wide.'
    >>> beside(beside("600 × 300 mm, 12.5 m²"))
    '600 × 300 mm (1 ft 11 5/8 in × 11 3/4 in), 12.5 m² (135 sq ft)'
    """
    return _LENGTH.sub(_both, text)


LEVEL = "level"
"""Stands for metres over the datum: they are read in feet and hundredths."""
_BARE = re.compile(rf"(?P<first>{_NUMBER})(?P<more>(?:{_JOIN}(?:{_NUMBER})){{0,5}})")


def in_imperial(value: float, unit: str) -> str:
    """Return a measure as it is read in imperial units, with their sign; empty for a unit that has none.

    Args:
        value: The measure. [unit]
        unit: Its unit, or "level" for metres over the datum.

    >>> in_imperial(1500.0, "mm"), in_imperial(2.0, "m3"), in_imperial(10.0, "level"), in_imperial(3.0, "each")
    ('4 ft 11 in', '2.62 cu yd', '32.81 ft', '')
    """
    if unit == LEVEL:
        return f"{feet_decimal(units.m_to_mm(value))} ft"
    return _UNITS[unit](value) if unit in _UNITS else ""


def under(cell: str, unit: str) -> str:
    r"""Return a bare number of a table, the imperial measure under it where that is usual; other words stay.

    Args:
        cell: What stands in the table.
        unit: Unit of its column; empty for none.

    >>> from pavewright.writing._manner import Writing, written_as
    >>> with written_as(Writing.of("usa", "USD")):
    ...     under("9.982", "level"), under("+3.0", "mm"), under("–", "mm"), under("100 × 50", "mm")
    ('9.982\n32.75 ft', '+3.0\n1/8 in', '–', '100 × 50\n3 7/8 in × 2 in')
    >>> under("9.982", "level")
    '9.982'
    """
    found = _BARE.fullmatch(cell) if unit and now().imperial else None
    if found is None:
        return cell
    parts = _SEPARATE.split(cell)
    said = (in_imperial(_value(part), unit) if place % 2 else part for place, part in enumerate(parts))
    return f"{cell}\n{''.join(said)}"


def _both(found: re.Match[str]) -> str:
    written = _UNITS[found["unit"]]
    parts = _SEPARATE.split(found["first"] + found["more"])
    said = "".join(_said(part, found["unit"], written) if place % 2 else part for place, part in enumerate(parts))
    return f"{found[0]} ({said})"


_TENTH = re.compile(r"\.\d$")


def _said(figures: str, unit: str, written: Callable[[float], str]) -> str:
    """Return an imperial measure no finer than the metric one: a tenth of a metre is no eighth of an inch."""
    if unit == "m" and _TENTH.search(figures):
        return f"{_value(figures) * _SHEET_UNITS['m'][0]:.1f} ft".replace("-", "−")
    return written(_value(figures))


def _value(text: str) -> float:
    return float(text.replace("\u202f", "").replace(",", "").replace("−", "-"))


_NOT_WORDS = frozenset(
    {"kind", "svg", "width", "align", "pad", "id", "file", "size", "upright", "base64", "media", "level"}
)


def in_every_text(data: Any, change: Callable[[str], str]) -> Any:  # noqa: ANN401 - plain data of a page
    """Return plain data with every text in it changed; keys of the page stay."""
    if isinstance(data, str):
        return change(data)
    if isinstance(data, dict):
        return {key: value if key in _NOT_WORDS else in_every_text(value, change) for key, value in data.items()}
    if isinstance(data, list | tuple):
        return [in_every_text(each, change) for each in data]
    return data
