"""How a price list is read: as far as a person said it, else as heads and content suggest; what is open is asked."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING, Any

from pavewright.files._price_amounts import decimal_mark, priced_by
from pavewright.files._price_columns import guessed, head_has_tax
from pavewright.files._price_per import per_in
from pavewright.files._read import FileRefusedError
from pavewright.firm import ListColumnKind, ListKind, ListPer

if TYPE_CHECKING:
    from pavewright.files._price_rows import PriceRow

_MAX_TAX = Decimal(100)


@dataclass(frozen=True, slots=True)
class ListColumns:
    """How a list is read.

    Attributes:
        columns: The place of each kind of column, from 0.
        decimal: The decimal mark.
        tax_percent: Tax that the prices hold; None where they are before tax. [%]
        per_unit: Whether prices are of one unit (kg, m² ...) and not of the pack.
        currency: Money of the prices: it says how many of the smallest unit make one.
        of: What is listed.
        by_count: Of how many pieces the prices of goods are, where they are by the hundred or the thousand; else 0.
        per: By what prices of plant, loads and labour are charged; None where each line says it, or nobody.
        heads: What stands over the columns.
    """

    columns: dict[ListColumnKind, int]
    decimal: str
    tax_percent: Decimal | None
    per_unit: bool
    currency: str
    of: ListKind = ListKind.GOODS
    by_count: int = 0
    per: ListPer | None = None
    heads: tuple[str, ...] = ()

    def head_of(self, column: ListColumnKind) -> str:
        """Return what stands over a column; empty where nothing does."""
        place = self.columns.get(column)
        return self.heads[place] if place is not None and place < len(self.heads) else ""


def list_of(said: dict[str, Any]) -> ListKind:
    """Return what is listed, as a person said it; goods where nobody did."""
    given = said.get("of")
    return ListKind(given) if given in set(ListKind) else ListKind.GOODS


def how_read(rows: list[PriceRow], head: int | None, said: dict[str, Any]) -> tuple[ListColumns, list[str]]:
    """Return how a list is read, and what has to be asked."""
    heads = [] if head is None else [str(each) for each in rows[head].cells]
    given, of = said.get("columns"), list_of(said)
    columns = guessed(rows, head, of) if not isinstance(given, dict) or not given else _chosen(given, heads)
    price = columns.get(ListColumnKind.PRICE)
    cells = [] if price is None else [row.cells[price] for row in rows if price < len(row.cells)]
    mark = decimal_mark(cells)
    decimal = said.get("decimal") if said.get("decimal") in {".", ","} else mark or "."
    questions = []
    for each, words in ((ListColumnKind.NAME, "what things are called"), (ListColumnKind.PRICE, "the prices")):
        if each not in columns and not (each is ListColumnKind.PRICE and ListColumnKind.WEEK_PRICE in columns):
            questions.append(f"Say in which column {words} stand.")
    tax = _tax(said)
    over = head_has_tax(heads[price]) if price is not None and price < len(heads) else None
    if over and tax is None:
        questions.append(f"The head {heads[price or 0]!r} says that prices hold the tax: say how much it is.")
    if not mark and not said.get("decimal") and any(isinstance(each, str) and "," in each for each in cells):
        questions.append("A comma in the prices may part thousands or pence: say which.")
    title = heads[price] if price is not None and price < len(heads) else ""
    per = _per(said, title, of)
    if (
        of is not ListKind.GOODS
        and per is None
        and not {ListColumnKind.SOLD_BY, ListColumnKind.WEEK_PRICE} & set(columns)
    ):
        questions.append("Say whether prices are of an hour, a day or a week.")
    return ListColumns(
        *(columns, str(decimal), tax, bool(said.get("per_unit")), str(said.get("currency") or "")),
        *(of, priced_by(title) if of is ListKind.GOODS else 0, per, tuple(heads)),
    ), questions


def _per(said: dict[str, Any], head: str, of: ListKind) -> ListPer | None:
    """Return by what prices are charged where no line says it: as a person or the head of the prices says."""
    if of is ListKind.GOODS:
        return None
    if said.get("per") in set(ListPer):
        return ListPer(said["per"])
    return per_in(head) or (ListPer.LOAD if of is ListKind.DISPOSAL else None)


def _chosen(given: dict[str, Any], heads: list[str]) -> dict[ListColumnKind, int]:
    """Return columns as a person named them, by their place or by their head."""
    found: dict[ListColumnKind, int] = {}
    for name, where in given.items():
        if name not in ListColumnKind.__members__.values() and name not in {each.value for each in ListColumnKind}:
            continue
        if isinstance(where, int) and not isinstance(where, bool) and where >= 0:
            found[ListColumnKind(name)] = where
        elif isinstance(where, str) and where in heads:
            found[ListColumnKind(name)] = heads.index(where)
    return found


def _tax(said: dict[str, Any]) -> Decimal | None:
    given = said.get("tax_percent")
    if isinstance(given, bool) or not isinstance(given, int | float):
        return None
    tax = Decimal(repr(given))
    if not tax.is_finite() or not 0 <= tax <= _MAX_TAX:
        message = "Tax is to be between 0 and 100 %."
        raise FileRefusedError(message)
    return tax
