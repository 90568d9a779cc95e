"""Why a bill is not made."""

from __future__ import annotations

from enum import StrEnum


class NotBilled(StrEnum):
    """Why a bill is not made."""

    NOT_ACCEPTED = "not_accepted"
    NO_SUCH_STAGE = "no_such_stage"
    STAGE_BILLED = "stage_billed"
    NOTHING_LEFT = "nothing_left"
    MORE_THAN_LEFT = "more_than_left"
    NO_SUCH_VARIATION = "no_such_variation"
    NOT_APPROVED = "not_approved"
    VARIATION_BILLED = "variation_billed"
    SAVES = "saves"
    NO_SUCH_BILL = "no_such_bill"
    MORE_THAN_BILLED = "more_than_billed"
    NOTHING_HELD = "nothing_held"
    STILL_OPEN = "still_open"
    DATED_BEFORE = "dated_before"
    CREDIT_FIRST = "credit_first"

    @property
    def words(self) -> str:
        """What is said, and what to do."""
        return _WORDS[self]


_WORDS = {
    NotBilled.NOT_ACCEPTED: "Nothing was accepted yet: record the acceptance of the quotation first.",
    NotBilled.NO_SUCH_STAGE: "There is no such payment among those that were agreed.",
    NotBilled.STAGE_BILLED: "This payment was billed before: credit that bill first, or bill another payment.",
    NotBilled.NOTHING_LEFT: "All that was agreed is billed.",
    NotBilled.MORE_THAN_LEFT: "This is more than is left to bill: have a variation approved for the rest.",
    NotBilled.NO_SUCH_VARIATION: "There is no such variation in the register.",
    NotBilled.NOT_APPROVED: "This variation was not approved: have it signed first.",
    NotBilled.VARIATION_BILLED: "This variation was billed before.",
    NotBilled.SAVES: "This variation saves money: it comes off the final bill.",
    NotBilled.NO_SUCH_BILL: "There is no such bill to credit.",
    NotBilled.MORE_THAN_BILLED: "This is more than is left of that bill.",
    NotBilled.NOTHING_HELD: "The customer holds nothing back.",
    NotBilled.DATED_BEFORE: "The bill has a date before something in it was approved or settled: take a later date.",
    NotBilled.CREDIT_FIRST: "Under one of the taxes more is billed than was agreed: make a credit note for that first.",
    NotBilled.STILL_OPEN: "The final bill waits: a variation is not decided, or a sum of the quotation is not settled.",
}


class NotBilledError(Exception):
    """A bill is not made.

    Attributes:
        why: Why not.
    """

    def __init__(self, why: NotBilled) -> None:
        """Take the reason."""
        self.why = why
        super().__init__(why.words)
