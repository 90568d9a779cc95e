"""Amounts of a price list: money as people write it, and units of sale."""

from __future__ import annotations

import re
from decimal import Decimal, InvalidOperation
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.job import PackUnit

if TYPE_CHECKING:
    from collections.abc import Iterable

_SPACES = re.compile(r"[\s\u00a0\u2009\u202f']")
_MONEY = re.compile(r"[^\d.,\-+]")
_GROUP = 3
_PARTED = {sign: re.compile(rf"[-+]?\d{{1,3}}({re.escape(sign)}\d{{2,3}})*{re.escape(sign)}\d{{3}}") for sign in ".,"}
"""How a sign parts thousands: three figures after the last of it, two or three between."""
_MAX_MONEY = Decimal(10_000_000)
_UNITS: dict[str, tuple[PackUnit, str]] = {
    **dict.fromkeys(("kg", "kgs", "kilo", "kilos"), (PackUnit.KG, "1")),
    **dict.fromkeys(("t", "te", "tonne", "tonnes", "to"), (PackUnit.KG, "1000")),
    "g": (PackUnit.KG, "0.001"),
    **dict.fromkeys(("m2", "m²", "sqm", "sq m", "sq.m", "square metre", "qm"), (PackUnit.M2, "1")),
    **dict.fromkeys(("m3", "m³", "cum", "cu m", "cu.m", "cube", "cubic metre", "cbm"), (PackUnit.M3, "1")),
    **dict.fromkeys(("m", "lm", "lin m", "metre", "metres", "m run", "mtr", "lfm"), (PackUnit.M, "1")),
    "mm": (PackUnit.M, "0.001"),
    **dict.fromkeys(("l", "lt", "ltr", "litre", "litres", "liter"), (PackUnit.LITRE, "1")),
    "ml": (PackUnit.LITRE, "0.001"),
    **dict.fromkeys(
        ("each", "ea", "no", "nr", "off", "pc", "pcs", "piece", "pieces", "unit", "units", "item", "pair", "stk", "st"),
        (PackUnit.EACH, "1"),
    ),
}
_UNITS["pair"] = (PackUnit.EACH, "2")
_PACKS = (
    r"(?:(?:bulk |dumpy |jumbo |big )?bag|sack|pack|roll|tub|drum|pallet|box|bucket|can|bottle|length|of|per|a|x|/)"
)
_WORDS = "|".join(sorted((re.escape(each) for each in _UNITS), key=len, reverse=True))
_AMOUNT = re.compile(rf"(?:(?P<amount>\d[\d.,]*)\s*)?(?P<unit>{_WORDS})\.?")
_IN_NAME = re.compile(
    r"(?<![\w.,x×])(\d+(?:[.,]\d+)?)\s*(kg|tonnes?|litres?|ltr|l|m2|m²|m3|m³)(?![\w²³])", re.IGNORECASE
)


class NoAmountError(ValueError):
    """Words that are no amount; carries a sentence."""


def decimal_mark(cells: Iterable[str | float]) -> str:
    """Return by which sign a column of numbers parts whole from broken; nothing where its numbers do not show it.

    A sign that stands last of two kinds, or has not three figures after it, is the decimal mark of the whole column.

    Args:
        cells: The cells of the column. [as listed]
    """
    seen: set[str] = set()
    for cell in cells:
        if isinstance(cell, float):
            continue
        words = _MONEY.sub("", _SPACES.sub("", cell))
        last = max(words.rfind("."), words.rfind(","))
        if last < 0:
            continue
        mark = words[last]
        other = "," if mark == "." else "."
        if other in words or (words.count(mark) == 1 and len(words) - last - 1 != _GROUP):
            seen.add(mark)
        elif words.count(mark) > 1:
            seen.add(other)
    return seen.pop() if len(seen) == 1 else ""


def number_told(cell: str | float, mark: str) -> Decimal | None:
    """Return the number in a cell, None where it is empty.

    Args:
        cell: The cell. [as listed]
        mark: The decimal mark of its column.

    Raises:
        NoAmountError: what stands there is no number.
    """
    if isinstance(cell, float):
        value = Decimal(repr(cell))
    else:
        words = _SPACES.sub("", cell)
        if not words:
            return None
        if words[0] in "=@":
            message = f"{cell!r} is a formula: save the list with its values."
            raise NoAmountError(message)
        bare = re.sub(r"^[^\d.,\-+]{1,4}(?=[\d.,\-+])|(?<=\d)[^\d.,]{1,4}$", "", words)
        parts = "." if mark == "," else ","
        whole, _, pence = bare.partition(mark)
        if parts in pence or (parts in whole and _PARTED[parts].fullmatch(whole) is None):
            message = f"{cell!r} is no number where {mark!r} stands before the decimals: write it like the others."
            raise NoAmountError(message)
        try:
            value = Decimal(bare.replace(parts, "").replace(mark, "."))
        except InvalidOperation:
            message = f"{cell!r} is not a number."
            raise NoAmountError(message) from None
    if not value.is_finite() or abs(value) > _MAX_MONEY:
        message = f"{str(cell)[:40]!r} is not a number that a price list holds."
        raise NoAmountError(message)
    return value


def sold_by(words: str, mark: str = ".") -> tuple[Decimal, PackUnit] | None:
    """Return how much a unit of sale holds; None where the words do not say it, as of a bag.

    >>> sold_by("25 kg bag")
    (Decimal('25'), <PackUnit.KG: 'kg'>)
    >>> sold_by("per tonne")
    (Decimal('1000'), <PackUnit.KG: 'kg'>)
    >>> sold_by("bag") is None
    True
    """
    rest = re.sub(rf"(?:(?<=\s)|^|(?<=\d)){_PACKS}(?=\s|$|\d)", " ", f" {words.casefold()} ").strip()
    rest = re.sub(r"\s+", " ", rest).strip(" ()[].")
    if rest.isdecimal():  # a pack of 20
        return Decimal(rest), PackUnit.EACH
    found = _AMOUNT.fullmatch(rest)
    if found is None:
        return None
    unit, times = _UNITS[found["unit"]]
    try:
        amount = number_told(found["amount"] or "1", mark)
    except NoAmountError:
        return None
    return None if not amount else (amount * Decimal(times), unit)


_BY_COUNT = re.compile(
    r"(?:\bper|/|\bby the)\s*[£€$]?\s*(1[,.\s]?000|100|thousand|hundred)\b"
    r"(?!\s*(?:kg|g|t|m|m2|m²|m3|m³|mm|l|litres?)\b)"
)
_HUNDRED, _THOUSAND = 100, 1000


def priced_by(words: str) -> int:
    """Return of how many pieces a price is that is given by the hundred or the thousand; 0 where it is of others.

    >>> priced_by("per 1000"), priced_by("Price / 100"), priced_by("each"), priced_by("per 100 kg")
    (1000, 100, 0, 0)
    """
    plain = " ".join(words.casefold().split())
    found = _BY_COUNT.search(plain)
    count = plain if plain in {"hundred", "thousand"} else "" if found is None else found[1]
    if not count:
        return 0
    return _HUNDRED if count in {"100", "hundred"} else _THOUSAND


def amount_in_name(name: str) -> tuple[Decimal, PackUnit] | None:
    """Return how much a name says that it holds, such as Cement 25 kg; None where it says none, or more than one."""
    found = _IN_NAME.findall(name)
    if len(found) != 1:
        return None
    amount, unit = found[0]
    kind, times = _UNITS[unit.casefold()]
    return Decimal(amount.replace(",", ".")) * Decimal(times), kind


_LENGTH = re.compile(r"(?<![\w.,x×*])(\d+(?:[.,]\d+)?)\s*(mm|m)(?![\w²³])(?!\s*[x×*])", re.IGNORECASE)
_SHORT_MM, _LONG_MM = 300.0, 6000.0
"""A piece of edging, kerb, channel or pipe is not shorter, and not longer. [mm]"""


def length_in_name(name: str) -> float | None:
    """Return how long a name says that one piece is; None where it says none, or more than one. [mm].

    >>> length_in_name("Kerb small 915 mm"), length_in_name("Pipe 110 mm x 3 m"), length_in_name("Flag 600x600")
    (915.0, None, None)
    """
    found = [
        float(amount.replace(",", ".")) * (1.0 if unit.casefold() == "mm" else units.MM_PER_M)
        for amount, unit in _LENGTH.findall(name)
    ]
    return found[0] if len(found) == 1 and _SHORT_MM <= found[0] <= _LONG_MM and not _sides(name) else None


def _sides(name: str) -> bool:
    return re.search(r"\d\s*(?:mm|m)?\s*[x×*]\s*\d", name, re.IGNORECASE) is not None


def has_size(name: str) -> bool:
    """Return whether a name gives a length or the sides of a piece: what weighs so much then is one piece."""
    return _sides(name) or bool(_LENGTH.search(name))
