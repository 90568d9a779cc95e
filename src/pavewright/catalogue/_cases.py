"""Published examples: ours, printed, difference."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from decimal import Decimal, InvalidOperation
from typing import TYPE_CHECKING, Any

from pavewright import units
from pavewright.catalogue._faults import CaseFault
from pavewright.catalogue._find import find
from pavewright.catalogue._proof import Expectation, read_expectation, read_status
from pavewright.catalogue._sources import source_named, source_words, sources_of
from pavewright.sums import Quantity, Sum, SumRefusedError, Value

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from pavewright.rules import Source

_FOOT_MM = units.MM_PER_INCH * units.INCHES_PER_FOOT
_CENTIMETRE_MM = 10.0
_POUND_KG = 0.453_592_37
_CUBIC_FOOT_M3 = _FOOT_MM**3 / units.MM3_PER_M3
_SECONDS_PER_MINUTE = units.SECONDS_PER_HOUR / units.MINUTES_PER_HOUR
_TO_BASE = {
    "mm": ("mm", 1.0),
    "cm": ("mm", _CENTIMETRE_MM),
    "m": ("mm", units.MM_PER_M),
    "in": ("mm", units.MM_PER_INCH),
    "ft": ("mm", _FOOT_MM),
    "mm2": ("mm2", 1.0),
    "m2": ("mm2", units.MM2_PER_M2),
    "ft2": ("mm2", _FOOT_MM**2),
    "mm3": ("mm3", 1.0),
    "m3": ("mm3", units.MM3_PER_M3),
    "l": ("mm3", units.MM3_PER_M3 / units.LITRES_PER_M3),
    "ft3": ("mm3", _FOOT_MM**3),
    "yd3": ("mm3", (3 * _FOOT_MM) ** 3),
    "kg": ("kg", 1.0),
    "t": ("kg", units.KG_PER_TONNE),
    "lb": ("kg", _POUND_KG),
    "kg/m3": ("kg/m3", 1.0),
    "t/m3": ("kg/m3", units.KG_PER_TONNE),
    "lb/ft3": ("kg/m3", _POUND_KG / _CUBIC_FOOT_M3),
    "m3/s": ("m3/s", 1.0),
    "l/s": ("m3/s", 1.0 / units.LITRES_PER_M3),
    "ft3/s": ("m3/s", _CUBIC_FOOT_M3),
    "m3/h": ("m3/s", 1.0 / units.SECONDS_PER_HOUR),
    "yd3/h": ("m3/s", 27.0 * _CUBIC_FOOT_M3 / units.SECONDS_PER_HOUR),
    "m^0.5/s": ("m^0.5/s", 1.0),
    "ft^0.5/s": ("m^0.5/s", math.sqrt(_FOOT_MM / units.MM_PER_M)),
    "m/s": ("m/s", 1.0),
    "mm/s": ("m/s", 1.0 / units.MM_PER_M),
    "ft/s": ("m/s", _FOOT_MM / units.MM_PER_M),
    "mm/h": ("mm/h", 1.0),
    "in/h": ("mm/h", units.MM_PER_INCH),
    "s/mm": ("s/mm", 1.0),
    "min/in": ("s/mm", _SECONDS_PER_MINUTE / units.MM_PER_INCH),
    "s": ("s", 1.0),
    "min": ("s", _SECONDS_PER_MINUTE),
    "h": ("s", units.SECONDS_PER_HOUR),
}


_KNOWN = frozenset(
    {
        "name",
        "source",
        "place",
        "status",
        "not_read",
        "sum",
        "inputs",
        "units",
        "printed",
        "tolerance",
        "expect",
        "why",
        "ours",
    }
)


@dataclass(frozen=True, slots=True)
class CaseRow:
    """One printed answer against ours.

    Attributes:
        case: Name of the case.
        source: Where it was printed, with its place.
        answer: Name of the answer, with its place in a row.
        ours: Ours in the printed unit, or the words of the refusal.
        printed: As printed.
        difference: Ours less printed; None where there is no number. [unit of the answer]
        tolerance: How far ours may differ. [unit of the answer]
        holds: Whether the case came out as it expects.
    """

    case: str
    source: str
    answer: str
    ours: str
    printed: str
    difference: float | None
    tolerance: float | None
    holds: bool


def verify_cases(document: Mapping[str, Any], register: Mapping[str, Source] | None = None) -> tuple[CaseRow, ...]:
    """Return every printed answer of a case file against ours.

    Args:
        document: The case file as read, with its own sources where it has any.
        register: Sources that cases may name beside those of their own file.

    Raises:
        CaseFault: a case is not sound.
    """
    rows: list[CaseRow] = []
    if not document.get("case"):
        message = "the file holds no case"
        raise CaseFault(message)
    known = sources_of(document, register or {})
    for case in document["case"]:
        try:
            rows.extend(_verify(case, known))
        except (KeyError, InvalidOperation) as problem:
            message = f"case {case.get('name', '?')}: {problem!r} is missing or not a number"
            raise CaseFault(message) from None
    return tuple(rows)


def _verify(case: Mapping[str, Any], known: Mapping[str, Source]) -> list[CaseRow]:
    stray = sorted(set(case) - _KNOWN)
    if stray:
        message = f"case {case.get('name', '?')} has no entry {', '.join(stray)}"
        raise CaseFault(message)
    entry = find(case["sum"])
    where = source_words(source_named(case["source"], known), case.get("place", ""), read_status(case).value)
    expect = read_expectation(case)
    if expect is not Expectation.REFUSED:
        _says_something(case, "printed")
    if expect is Expectation.DIFFERS:
        _says_something(case, "ours")
    given = _inputs(entry, case)
    try:
        answers = entry.run(given)
    except SumRefusedError as refusal:
        return [CaseRow(case["name"], where, "refused", str(refusal), "", None, None, expect is Expectation.REFUSED)]
    if expect is Expectation.REFUSED:
        return [CaseRow(case["name"], where, "refused", "not refused", "", None, None, holds=False)]
    rows = _held(entry, case, where, answers, case["printed"])
    if expect is Expectation.DIFFERS:
        wrong = [replace(row, holds=not row.holds) for row in rows]
        return [*wrong, *_held(entry, case, where, answers, case["ours"])]
    return rows


def _says_something(case: Mapping[str, Any], part: str) -> None:
    """Refuse a case whose answers are missing or empty rows only: nothing would be compared with anything."""
    given = case.get(part, {}).values()
    if not any(not isinstance(answer, list) or answer for answer in given):
        message = f"case {case['name']}: there is no {part} answer to compare ours with"
        raise CaseFault(message)


def _inputs(entry: Sum, case: Mapping[str, Any]) -> dict[str, Value]:
    known = {quantity.name: quantity for quantity in entry.inputs}
    stray = sorted(set(case["inputs"]) - set(known))
    lacking = sorted(
        name for name, quantity in known.items() if quantity.default is None and name not in case["inputs"]
    )
    if stray or lacking:
        # a trap must be refused for what it says, not for a name that is misspelt
        message = f"case {case['name']}: unknown inputs {stray}, missing inputs {lacking}"
        raise CaseFault(message)
    return {name: _input(known[name], value, case.get("units", {}).get(name)) for name, value in case["inputs"].items()}


def _input(quantity: Quantity, value: Any, unit: str | None) -> Value:  # noqa: ANN401 - from a case file
    factor = _factor(unit, quantity.unit)
    if quantity.kind == "number":
        return float(Decimal(str(value))) * factor
    if quantity.kind == "numbers":
        return tuple(float(Decimal(str(cell))) * factor for cell in value)
    if quantity.kind == "words":
        return tuple(
            str(cell) if unit is None or cell == "-" else repr(float(Decimal(str(cell))) * factor) for cell in value
        )
    return str(value)


def _factor(unit: str | None, own: str) -> float:
    """Return what a number in a unit is multiplied by to stand in the sum's own unit."""
    plain = own.replace("²", "2").replace("³", "3")
    if unit is None or unit == plain:
        return 1.0
    if unit not in _TO_BASE or plain not in _TO_BASE or _TO_BASE[unit][0] != _TO_BASE[plain][0]:
        message = f"{unit} cannot be turned into {own}"
        raise CaseFault(message)
    return _TO_BASE[unit][1] / _TO_BASE[plain][1]


def _held(
    entry: Sum, case: Mapping[str, Any], where: str, answers: Mapping[str, Value], printed: Mapping[str, Any]
) -> list[CaseRow]:
    own = {quantity.name: quantity.unit for quantity in entry.outputs}
    rows: list[CaseRow] = []
    for name, given in printed.items():
        factor = _factor(case.get("units", {}).get(name), own[name])
        wanted: Sequence[Any] = given if isinstance(given, list) else [given]
        answer = answers[name]
        found: Sequence[Any] = answer if isinstance(answer, tuple) else (answer,)
        if len(found) != len(wanted):
            rows.append(
                CaseRow(case["name"], where, name, f"{len(found)} answers", f"{len(wanted)}", None, None, holds=False)
            )
            continue
        for place, (ours, text) in enumerate(zip(found, wanted, strict=True), start=1):
            label = name if len(wanted) == 1 else f"{name} {place}"
            rows.append(_row(case, where, label, ours, str(text), factor, case.get("tolerance", {}).get(name)))
    return rows


def _row(
    case: Mapping[str, Any],
    where: str,
    label: str,
    ours: Any,  # noqa: ANN401 - a number or a word
    text: str,
    factor: float,
    wider: Mapping[str, Any] | None,
) -> CaseRow:
    if isinstance(ours, str):
        try:
            ours = float(ours)
        except ValueError:
            return CaseRow(case["name"], where, label, str(ours), text, None, None, ours == text)
    value, stated = ours / factor, Decimal(text)
    exponent = stated.as_tuple().exponent
    tolerance = 0.5 * 10.0 ** (exponent if isinstance(exponent, int) else 0)
    if wider is not None:
        if not wider.get("reason"):
            message = f"case {case['name']}: a wider tolerance needs its reason"
            raise CaseFault(message)
        tolerance = _wider(wider, abs(float(stated)), 2.0 * tolerance)
    difference = value - float(stated)
    slack = 1e-9 * max(1.0, abs(value))
    holds = abs(difference) <= tolerance + slack
    if wider is not None and wider.get("cut"):
        # digits that are cut off leave the printed figure nearer to zero, never further off
        holds = holds and difference * (1.0 if value >= 0.0 else -1.0) >= -slack
    return CaseRow(case["name"], where, label, f"{value:.6g}", text, difference, tolerance, holds)


def _wider(wider: Mapping[str, Any], stated: float, last_digit: float) -> float:
    """Return a wider tolerance: a value, a part of the printed figure, or its last digit where the rest was cut off."""
    if wider.get("cut"):
        return last_digit
    return float(wider["value"]) if "value" in wider else stated * float(wider["percent"]) / 100.0
