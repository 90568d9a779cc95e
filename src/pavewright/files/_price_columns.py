"""Which column of a price list is what: as the user said it once, else guessed from heads and content."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from pavewright.files._price_amounts import NoAmountError, number_told, sold_by
from pavewright.files._price_heads import HEADS
from pavewright.firm import ListColumnKind, ListKind

if TYPE_CHECKING:
    from pavewright.files._price_rows import PriceRow


_LOOKED_AT = 30
_HEADS_NEEDED = 2
_MOSTLY = 0.7
_WITH_TAX = re.compile(r"\b(inc|incl|including|gross|with)\b.*|\bbrutto\b|\bttc\b")


def head_row(rows: list[PriceRow], of: ListKind = ListKind.GOODS) -> int | None:
    """Return the place of the row of heads among the rows; None where there is none."""
    best, most = None, _HEADS_NEEDED - 1
    for place, row in enumerate(rows[:_LOOKED_AT]):
        if any(isinstance(cell, float) for cell in row.cells):
            continue
        roles = [role for cell in row.cells if (role := _role_of(str(cell), of))]
        if len(set(roles)) > most:
            best, most = place, len(set(roles))
    return best


def _plain(head: str) -> str:
    return " ".join(re.sub(r"[^\w ]", " ", head.casefold()).replace("_", " ").split())


def _role_of(head: str, of: ListKind) -> ListColumnKind | None:
    """Return what a head means: the longest of the known words that it holds."""
    words = f" {_plain(head)} "
    fits = [(len(each), role) for role, known in HEADS[of].items() for each in known if f" {each} " in words]
    return max(fits, key=lambda each: each[0])[1] if fits else None


def guessed(rows: list[PriceRow], head: int | None, of: ListKind = ListKind.GOODS) -> dict[ListColumnKind, int]:
    """Return which column is likely what: by its head where there is one, else by what stands in it."""
    found: dict[ListColumnKind, int] = {}
    if head is not None:
        for place, cell in enumerate(rows[head].cells):
            role = _role_of(str(cell), of)
            if role is not None and role not in found:
                found[role] = place
    body = rows[(head + 1) if head is not None else 0 :][: 4 * _LOOKED_AT]
    priced = ListColumnKind.PRICE in found or ListColumnKind.WEEK_PRICE in found
    if ListColumnKind.NAME not in found or not priced:
        _by_content(body, found, of)
    return found


def _by_content(body: list[PriceRow], found: dict[ListColumnKind, int], of: ListKind) -> None:
    """Fill what heads do not tell from what stands in the columns."""
    taken = set(found.values())
    columns = {
        place: [row.cells[place] for row in body if place < len(row.cells) and row.cells[place] != ""]
        for place in range(max((len(row.cells) for row in body), default=0))
        if place not in taken
    }
    numbers = {place: _share(cells, _is_money) for place, cells in columns.items() if cells}
    names = [place for place, share in numbers.items() if share < 1.0 - _MOSTLY]
    if ListColumnKind.NAME not in found and names:
        found[ListColumnKind.NAME] = max(names, key=lambda each: sum(len(str(cell)) for cell in columns[each]))
    prices = [
        place
        for place, share in numbers.items()
        if share > _MOSTLY and place not in found.values() and len(columns[place]) > len(body) / 2.0
    ]
    if ListColumnKind.PRICE not in found and prices:
        found[ListColumnKind.PRICE] = max(prices, key=lambda each: (_share(columns[each], _has_pence), each))
    units = [
        place
        for place in names
        if place not in found.values() and _share(columns[place], lambda cell: sold_by(str(cell)) is not None) > _MOSTLY
    ]
    if of is ListKind.GOODS and ListColumnKind.SOLD_BY not in found and units:
        found[ListColumnKind.SOLD_BY] = units[0]


def _share(cells: list[str | float], fits: object) -> float:
    assert callable(fits)  # noqa: S101 - given above
    return sum(bool(fits(cell)) for cell in cells) / max(len(cells), 1)


def _is_money(cell: str | float) -> bool:
    try:
        return number_told(cell, ".") is not None
    except NoAmountError:
        return False


def _has_pence(cell: str | float) -> bool:
    return cell != int(cell) if isinstance(cell, float) else re.search(r"[.,]\d\d\D*$", cell) is not None


def head_has_tax(head: str) -> bool | None:
    """Return whether a head says that prices hold the tax; None where it says nothing of it."""
    words = _plain(head)
    if re.search(r"\b(ex|exc|excl|excluding|net|netto|ht|without)\b", words):
        return False
    return True if _WITH_TAX.search(words) and re.search(r"\b(vat|tax|gst|gross|brutto|ttc|mwst)\b", words) else None
