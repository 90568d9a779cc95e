"""The sheet of the cost: priced lines and, step by step, the way from their sum to the price, every step live."""

from __future__ import annotations

from decimal import ROUND_FLOOR, ROUND_HALF_UP, Decimal
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.cost import LineGroup
from pavewright.job import RoundingKind, TaxRounding
from pavewright.papers._book import HEAD_ROWS, Column
from pavewright.papers._cost_words import COST_BOOK as SAID
from pavewright.quantities import ItemKey

if TYPE_CHECKING:
    from xlsxwriter.worksheet import Worksheet

    from pavewright.cost import CostLine, TaxShare
    from pavewright.papers._book import Book
    from pavewright.pipeline import Plan


def _lines(currency: str) -> tuple[Column, ...]:
    first = (Column("Line", 52.0), Column("Group", 10.0), Column("How much", 18.0))
    return (*first, Column(SAID.price_one(currency=currency), 16.0), Column(f"Amount, {currency}", 16.0))


_ALL = 100


def write_cost(book: Book, plan: Plan, rows: dict[ItemKey, int]) -> None:
    """Write the priced lines and the way from their sum to the price.

    Args:
        book: The workbook.
        plan: Whose price.
        rows: The row of each item on the sheet of quantities, as a table program counts it.
    """
    sheet = book.sheet("Cost", _lines(plan.job.identity.currency))
    money = _Money(book, sheet, plan)
    for row, line in enumerate(plan.cost.lines, start=HEAD_ROWS):
        money.line(row, line, rows)
    below = money.chain(HEAD_ROWS + len(plan.cost.lines))
    for row, gap in enumerate(plan.cost.gaps, start=below + 1):
        sheet.write_string(row, 0, SAID.not_price(gap=gap.words), book.words)


class _Money:
    """Rows of money: each a formula with its answer, or a number where a table program would answer otherwise."""

    def __init__(self, book: Book, sheet: Worksheet, plan: Plan) -> None:
        self._book, self._sheet, self._plan = book, sheet, plan
        currency = plan.job.identity.currency
        self._places, self._coins = units.money_places(currency), units.minor_per_major(currency)
        self._coin = book.number(currency, decimals=self._places)
        self._total = book.number(currency, decimals=self._places, total=True)

    def line(self, row: int, line: CostLine, rows: dict[ItemKey, int]) -> None:
        """Write one priced line: how much times the price of one, where that is the amount."""
        book, sheet, at = self._book, self._sheet, row + 1
        sheet.write_string(row, 0, line.description, book.words)
        sheet.write_string(row, 1, line.group.value, book.words)
        source, much = _ordered_in(line, rows), book.number(line.unit, decimals=_places(line))
        if source:
            sheet.write_formula(row, 2, source, much, line.quantity)
        else:
            sheet.write_number(row, 2, line.quantity, much)
        sheet.write_number(row, 3, line.rate_minor / self._coins, self._coin)
        if _half_up(Decimal(repr(line.quantity)) * line.rate_minor) == line.amount_minor:
            formula = f"=ROUND(C{at}*D{at},{self._places})"
            sheet.write_formula(row, 4, formula, self._coin, line.amount_minor / self._coins)
        else:
            sheet.write_number(row, 4, line.amount_minor / self._coins, self._coin)

    def chain(self, after: int) -> int:
        """Write the steps from the sum of the lines to what is to pay, and return the row after them, from 0.

        Args:
            after: The row after the last line, from 0.
        """
        cost, rates = self._plan.cost, self._plan.job.rates
        prime, overhead = after + 2, after + 3
        self._step(prime, "Prime cost", f"=SUM(E{HEAD_ROWS + 1}:E{after})", cost.prime_minor)
        by_hour = rates.overhead_minor_per_hour
        if by_hour is None:
            self._percent(overhead, rates.overhead_percent)
            formula = f"=ROUND(E{prime}*D{overhead}/{_ALL},{self._places})"
            formula = f"=0*E{prime}" if rates.overhead_percent is None else formula
            self._step(overhead, "Overhead", formula, cost.overhead_minor)
        else:
            hours = sum(task.person_hours for task in cost.labour)
            self._sheet.write_number(overhead - 1, 2, hours, self._book.number("h", decimals=2))
            self._sheet.write_number(overhead - 1, 3, by_hour / self._coins, self._coin)
            formula = f"=ROUND(C{overhead}*D{overhead},{self._places})"
            self._step(overhead, SAID.overhead_hour_labour, formula, cost.overhead_minor)
        net = self._net(overhead + 1, f"(E{prime}+E{overhead})")
        first = net + 1
        last = net + max(1, len(cost.tax))
        for number, share in enumerate(cost.tax):
            self._tax(first + number, share, net)
        if not cost.tax:
            self._step(first, rates.tax_name or "Tax", f"=0*E{net}", cost.tax_minor)
        self._step(last + 1, "To pay", f"=E{net}+SUM(E{first}:E{last})", cost.total_minor)
        return last + 1

    def _net(self, at: int, burdened: str) -> int:
        """Write the price before tax, in whole steps where the firm rounds it, and return its row."""
        cost, rates, places = self._plan.cost, self._plan.job.rates, self._places
        percent: float | None
        if rates.markup_percent is not None:
            words, percent = SAID.price_before_tax_with, rates.markup_percent
            formula = f"ROUND({burdened}*(1+D{at}/{_ALL}),{places})"
        else:
            words, percent = SAID.price_before_tax_with_2, rates.margin_percent
            formula = f"ROUND({burdened}/(1-D{at}/{_ALL}),{places})"
            formula = burdened if percent is None else formula
        self._percent(at, percent)
        step = rates.rounding
        if step is not None and step.kind is not RoundingKind.NONE:
            to = step.to_minor / self._coins
            way = "ROUND" if step.kind is RoundingKind.NEAREST else "ROUNDUP"
            formula = f"{way}(ROUND({formula}/{to:g},9),0)*{to:g}"
            words = SAID.then_steps(words=words, to=f"{to:g}")
        self._step(at, words, f"={formula}", cost.net_minor)
        return at

    def _tax(self, at: int, share: TaxShare, net: int) -> None:
        """Write the tax on what of the price is taxed in one way."""
        cost, rates = self._plan.cost, self._plan.job.rates
        name = rates.tax_name or "Tax"
        if len(cost.tax) == 1:
            self._sheet.write_formula(at - 1, 2, f"=E{net}", self._coin, share.net_minor / self._coins)
        else:
            self._sheet.write_number(at - 1, 2, share.net_minor / self._coins, self._coin)
        self._percent(at, share.taxed.charged_percent if share.taxed.is_known else None)
        words = name if len(cost.tax) == 1 else f"{name}, {share.taxed.regime.value.replace('_', ' ')}"
        is_down = rates.tax_rounding is TaxRounding.DOWN
        of = Decimal(share.net_minor) * Decimal(repr(share.taxed.charged_percent)) / _ALL
        worked_out = int(of.to_integral_value(ROUND_FLOOR)) if is_down else _half_up(of)
        if worked_out == share.tax_minor:
            way = "ROUNDDOWN(ROUND(" if is_down else "ROUND("
            tail = f",9),{self._places})" if is_down else f",{self._places})"
            formula = f"={way}C{at}*D{at}/{_ALL}{tail}" if share.taxed.is_known else f"=0*C{at}"
            self._step(at, words, formula, share.tax_minor)
        else:
            self._step(at, SAID.rounded_line_line(words=words), "", share.tax_minor)

    def _percent(self, at: int, percent: float | None) -> None:
        if percent is None:
            self._sheet.write_string(at - 1, 3, SAID.not_known_left_out, self._book.words)
        else:
            self._sheet.write_number(at - 1, 3, percent, self._book.number("%", decimals=2))

    def _step(self, at: int, words: str, formula: str, minor: int) -> None:
        """Write one step at a row as a table program counts it; a number alone where there is no formula."""
        self._sheet.write_string(at - 1, 0, words, self._book.bold)
        if formula:
            self._sheet.write_formula(at - 1, 4, formula, self._total, minor / self._coins)
        else:
            self._sheet.write_number(at - 1, 4, minor / self._coins, self._total)


def _half_up(amount: Decimal) -> int:
    return int(amount.to_integral_value(ROUND_HALF_UP))


def _places(line: CostLine) -> int:
    """Return decimals for how much of a line there is."""
    return 0 if line.quantity == round(line.quantity) else 2


def _ordered_in(line: CostLine, rows: dict[ItemKey, int]) -> str:
    """Return the formula that takes what is ordered of an item; nothing for work, hire and loads."""
    if line.group is not LineGroup.MATERIAL or not isinstance(line.key, ItemKey) or line.key not in rows:
        return ""
    return f"=Quantities!F{rows[line.key]}"
