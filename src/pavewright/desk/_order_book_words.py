"""The words of the order book: states, reasons, what is due, and what of money is not known."""

from __future__ import annotations

from dataclasses import dataclass

from pavewright.order_book import DueKind, JobState, MoneyGap, NotTaken, Why
from pavewright.writing import Catalogue, Sentence


@dataclass(frozen=True, slots=True)
class OrderBookWords(Catalogue):
    """The words around what is due."""

    by_hand: Sentence = Sentence("Set by hand; what is written down says: {follows}.")
    on: Sentence = Sentence("{why}, {day}.")
    plain: Sentence = Sentence("{why}.")
    about: Sentence = Sentence("{what}: {about}")
    counted: Sentence = Sentence("{what} ({count})")
    sent_seen: Sentence = Sentence("{what}; last opened {day}")
    sent_unseen: Sentence = Sentence("{what}; not opened yet")
    late: Sentence = Sentence("{days} days late")
    ago: Sentence = Sentence("{days} days ago")
    yesterday: str = "since yesterday"
    today: str = "today"
    tomorrow: str = "tomorrow"
    soon: Sentence = Sentence("in {days} days")


WORDS = OrderBookWords()
STATES: dict[JobState, str] = {
    JobState.ENQUIRY: "Enquiry",
    JobState.VISIT: "Visit",
    JobState.QUOTED: "Quoted",
    JobState.ACCEPTED: "Accepted",
    JobState.PLANNED: "Planned",
    JobState.ON_SITE: "On site",
    JobState.SNAGGING: "Snagging",
    JobState.PAID: "Paid",
    JobState.WATCHED: "Watched",
    JobState.LOST: "Lost",
    JobState.DECLINED: "Declined",
}
REASONS: dict[Why, str] = {
    Why.NOTHING_YET: "Nothing measured yet",
    Why.VISIT_PROMISED: "A visit is promised",
    Why.MEASURED: "Measured, not quoted",
    Why.QUOTED: "Quoted",
    Why.LINK_OUT: "The customer has a link to the quotation",
    Why.ACCEPTED: "The customer accepted",
    Why.DATED: "Accepted, with a day to start",
    Why.BEGUN: "Something was logged or read on site",
    Why.COMPLETE: "The work is complete",
    Why.FINAL_BILL: "The final bill was sent",
    Why.SETTLED: "Everything is billed and paid",
    Why.WARRANTY: "Paid; the warranty runs",
    Why.LATER_VISIT: "Paid; a later look is promised",
    Why.BY_HAND: "Set by hand",
}
NOT_TAKEN: dict[NotTaken, str] = {
    NotTaken.PRICE: "price",
    NotTaken.DATES: "dates",
    NotTaken.OTHER_FIRM: "another firm",
    NotTaken.NO_ANSWER: "no answer",
    NotTaken.PUT_OFF: "put off",
    NotTaken.NOT_OUR_WORK: "not our work",
    NotTaken.TOO_FAR: "too far away",
    NotTaken.OTHER: "another reason",
}
DUE: dict[DueKind, str] = {
    DueKind.QUESTION: "Answer the customer",
    DueKind.ACCEPTED: "The customer accepted",
    DueKind.VISIT: "Visit promised",
    DueKind.STARTS: "Work starts",
    DueKind.HOLD_POINT: "Look before work goes on",
    DueKind.CURE_ENDED: "Hardened",
    DueKind.ORDER_BY: "Order",
    DueKind.PRICE_LAPSING: "The price lapses",
    DueKind.SILENT: "Quotation without answer",
    DueKind.BILL_OWING: "Bill not paid",
    DueKind.PAYMENT_OUT: "Payment to suppliers",
    DueKind.SNAG_LATE: "Snag past its day",
    DueKind.LATER_VISIT: "Later look",
}
GAPS: dict[MoneyGap, str] = {
    MoneyGap.NO_PRICE: "no price",
    MoneyGap.NO_DATES: "no dates",
    MoneyGap.NO_STAGES: "no payments agreed",
    MoneyGap.PRICE_GAPS: "some of it has no price",
}
