"""The sentences of the findings on the account, in one place."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.findings import worded

if TYPE_CHECKING:
    from pavewright.findings import Option

Said = tuple[str, tuple["Option", ...]]
"""What is said, and what can be done."""


def not_accepted(what: str) -> Said:
    """Say that something leans on a quotation that nobody accepted."""
    return f"{what}, and nothing was accepted yet.", worded(("Record the acceptance of the quotation first.",))


def before_accepted(number: int) -> Said:
    """Say that a bill is older than the acceptance."""
    words = f"Bill {number} has a date before the day on which the quotation was accepted."
    return words, worded(("Put its date right.",))


def over_billed(number: int, more: str, agreed: str) -> Said:
    """Say that more was billed than was agreed."""
    words = f"With bill {number} more is billed than was agreed: {more} over {agreed}."
    return words, worded(("Make a credit note for what is too much.", "Have a variation for it approved first."))


def way_not_agreed(number: int) -> Said:
    """Say that a bill taxes in a way in which nothing of the agreed sum is taxed."""
    words = f"Bill {number} holds a sum under a tax under which nothing was agreed, or more of it than was agreed."
    return words, worded(("Make a credit note, and bill it under the tax that was agreed.",))


def negative(number: int) -> Said:
    """Say that a bill holds a sum below zero."""
    words = f"Bill {number} holds a sum that is less than zero: money that goes back stands on a credit note."
    return words, worded(("Make a credit note in its place.",))


def nothing_billed(number: int) -> Said:
    """Say that a bill asks for nothing."""
    return f"Bill {number} asks for nothing.", worded(("Leave it out while it is the last one.",))


def numbers(number: int, wanted: int) -> Said:
    """Say that bills are not numbered without a gap."""
    words = (
        f"Bill {number} should be number {wanted}: bills and credit notes are numbered from 1, in order, without a gap."
    )
    return words, worded(("Bring back the bill that is missing; what was sent is put right by a credit note.",))


def dates_turn_back(number: int) -> Said:
    """Say that a bill is dated before the one in front of it."""
    words = f"Bill {number} has a date before that of the bill in front of it."
    return words, worded(("Put its date right: numbers and dates run the same way.",))


def credit_of_nothing(number: int) -> Said:
    """Say that a credit note credits no bill."""
    words = f"Credit note {number} does not say which earlier bill it credits."
    return words, worded(("Give the number of the bill.",))


def credit_too_large(number: int, bill: int, more: str) -> Said:
    """Say that more of a bill is credited than it billed."""
    words = f"With credit note {number} more is credited of bill {bill} than it billed, by {more}."
    return words, worded(("Make it smaller, or credit the other bill as well.",))


def freed_too_much(number: int, more: str) -> Said:
    """Say that a bill frees more than is held back."""
    words = f"Bill {number} frees more than the customer holds back, by {more}."
    return words, worded(("Make it smaller.",))


def stage_twice(number: int, stage: int) -> Said:
    """Say that a payment is billed a second time."""
    words = f"Bill {number} asks for payment {stage}, which was billed before."
    return words, worded(("Credit one of the two.",))


def variation_not_approved(number: int, variation: int) -> Said:
    """Say that a bill bills a variation that nobody approved."""
    words = f"Bill {number} bills variation {variation}, which was not approved."
    return words, worded(("Have the variation signed first.", "Credit the bill."))


def variation_twice(number: int, variation: int) -> Said:
    """Say that a variation is billed a second time."""
    words = f"Bill {number} bills variation {variation}, which was billed before."
    return words, worded(("Credit one of the two.",))


def tax_differs(number: int, found: str, expected: str) -> Said:
    """Say that the tax on a bill is not what its rate gives."""
    words = f"The tax on bill {number} is {found}, and its rate gives {expected}: more than rounding explains."
    return words, worded(("Make a credit note, and bill it with the right tax.",))


def open_variation(number: int) -> Said:
    """Say that a variation is not decided."""
    words = f"Variation {number} is neither approved nor refused: it is in no sum yet."
    return words, worded(("Have it signed before the work goes on.", "Note that it was refused."))


def not_priced(number: int, gaps: int) -> Said:
    """Say that a variation takes things without a price."""
    words = f"Variation {number} takes {gaps} more thing{'s' if gaps > 1 else ''} without a price: its sum is too low."
    return words, worded(("Enter the prices, and write the variation anew.",))


def not_settled(number: int, name: str) -> Said:
    """Say that a sum of the quotation still stands as quoted."""
    words = f"Sum {number} of the quotation is not settled ({name}): it stands as quoted."
    return words, worded(("Enter what was found, or what the goods cost.",))


def settles_nothing(number: int) -> Said:
    """Say that something is settled of which nothing stands in the quotation, or that it is not said how."""
    words = f"What is entered as settled under number {number} settles no sum of the quotation: it is in no sum."
    return words, worded(("Enter how much was found where a rate settles it, and the cost where the cost does.",))


def paid_too_much(more: str) -> Said:
    """Say that more came in than was asked for."""
    return f"More came in than was asked for, by {more}.", worded(("Pay it back, or bill what it is for.",))


def payment_of_nothing(number: int) -> Said:
    """Say that a payment names a bill that is not there."""
    words = f"A payment names bill {number}, and there is none."
    return words, worded(("Put its number right.",))


def retention_tax(tax: str) -> Said:
    """Say that it is to be asked when tax on money held back falls due."""
    words = (
        f"The customer holds money back: the bills charge {tax} on the whole sum when they are sent. When tax on what "
        f"is held back falls due differs from place to place; ask the tax office or an adviser."
    )
    return words, ()
