"""The sums behind an account, from the quotation to what is owing."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from pavewright.account._types import AgreedKind
from pavewright.sums import Working
from pavewright.units import minor_to_text

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.account._types import Account

_UNIT = "minor units"


def workings(found: Account) -> Iterator[Working]:
    """Give the sums behind an account, one line of arithmetic each."""
    if not found.agreed:
        return
    money = partial(minor_to_text, currency=found.currency)
    parts = " + ".join(money(found.of_kind(kind)) for kind in AgreedKind)
    note = "quotation + options + sums settled + approved variations, with tax"
    yield Working(f"agreed = {parts}", float(found.agreed_minor), _UNIT, (), note)
    billed = " + ".join(money(each.gross_minor) for each in found.bills) or money(0)
    yield Working(f"billed = {billed}", float(found.billed_minor), _UNIT, (), "bills, credit notes less than zero")
    yield Working(
        f"to bill = {money(found.agreed_minor)} − {money(found.billed_minor)}", float(found.to_bill_minor), _UNIT
    )
    yield Working(
        f"due = {money(found.billed_minor)} − {money(found.held_minor)}",
        float(found.due_minor),
        _UNIT,
        (),
        "billed, less what is held back",
    )
    yield Working(f"owing = {money(found.due_minor)} − {money(found.paid_minor)}", float(found.owing_minor), _UNIT)
