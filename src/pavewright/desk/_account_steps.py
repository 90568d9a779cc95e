"""Steps of the account that need a sum or a plan: each gives the operations that write it into the job."""

from __future__ import annotations

import datetime as dt
from contextlib import contextmanager
from enum import StrEnum
from typing import TYPE_CHECKING, Any

from pavewright.account import (
    NotBilledError,
    credit_note,
    final_bill,
    part_bill,
    retention_bill,
    stage_bill,
    variation_bill,
)
from pavewright.desk._accepting import Acceptance, accept_operations, told
from pavewright.desk._dig_differs import dig_differs, variation_of_find
from pavewright.desk._varying import VariationHead, dig_deeper_operations, vary_operations
from pavewright.job import JobInvalid, load_document, parse, up_to_date
from pavewright.job.agreed import AcceptedMeans, VariationCause
from pavewright.job.operations import between
from pavewright.pipeline import NotAccepted, NotAcceptedError, NotVaried, NotVariedError

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from pavewright.job import Job
    from pavewright.job.agreed import Bill
    from pavewright.job.operations import Operation


class AccountStep(StrEnum):
    """What is done to an account."""

    ACCEPT = "accept"
    VARY = "vary"
    DIG_DEEPER = "dig_deeper"
    DIG_DIFFERS = "dig_differs"
    DIG_FIND = "dig_find"
    STAGE = "stage"
    PART = "part"
    VARIATION = "variation"
    FINAL = "final"
    RETENTION = "retention"
    CREDIT = "credit"


class AccountRefusedError(Exception):
    """A step makes no sense with the job as it is; the message says what to do."""


_NOT_ACCEPTED = {
    NotAccepted.NO_PRICE: "The job has no price that could be accepted: enter prices first.",
    NotAccepted.TAX_NOT_KNOWN: "It is not known what tax is charged: enter it first.",
    NotAccepted.NOT_OFFERED: "This option is not offered: it has no price, or it stops the job.",
    NotAccepted.ALREADY: "The quotation was accepted before: what changes now is a variation.",
}
_NOT_VARIED = {
    NotVaried.NO_PRICE_BEFORE: "The job as it was has no price to compare with.",
    NotVaried.NO_PRICE_NOW: "The job as it is has no price: see what is missing for it.",
    NotVaried.SAME: "Nothing differs in levels, depths, quantities, price or days.",
    NotVaried.OTHER_MONEY: "The two are in different money.",
}


def account_step(
    document: str | bytes,
    step: AccountStep,
    asked: dict[str, Any],
    book: str | bytes | None = None,
    report: Callable[[str], None] | None = None,
) -> list[Operation]:
    """Return the operations of a step of the account.

    Args:
        document: The job as it is.
        step: What is done.
        asked: What the step needs: ``on`` (a day) always; see each step.
        book: The firm's book.
        report: Takes a word before a long step; may raise to stop the work.

    Raises:
        AccountRefusedError: it makes no sense with the job as it is.
    """
    with refused_in_words():
        if step is AccountStep.ACCEPT:
            return accept_operations(document, book, _acceptance(asked), report)
        if step is AccountStep.VARY:
            return vary_operations(document, str(asked["before"]), book, _head(asked), report)
        if step is AccountStep.DIG_DEEPER:
            deeper = float(asked["deeper_mm"])
            return dig_deeper_operations(document, str(asked["area"]), deeper, book, _head(asked), report)
        if step in {AccountStep.DIG_DIFFERS, AccountStep.DIG_FIND}:
            operations: list[Operation] = dig_step(document, asked, book, report)["operations"]
            return operations
        now = up_to_date(load_document(document))
        made = _bill(parse(now), step, asked)
        return between(now, {**now, "bills": [*now.get("bills", []), told(made)]})


def dig_step(
    document: str | bytes,
    asked: dict[str, Any],
    book: str | bytes | None = None,
    report: Callable[[str], None] | None = None,
) -> dict[str, Any]:
    """Return what a find in the dig does to a job: its operations, and what it adds to price and days.

    Args:
        document: The job as it is.
        asked: What was found, and ``on`` which day.
        book: The firm's book.
        report: Takes a word before each of the two plans; may raise to stop the work.

    Raises:
        AccountRefusedError: it makes no sense with the job as it is.
    """
    with refused_in_words():
        if "find" in asked:
            kept = asked.get("stored_revision")
            found = variation_of_find(document, str(asked["find"]), _day(asked), book, report, stored_revision=kept)
        else:
            found = dig_differs(document, asked, _day(asked), book, report)
    variation = None if found.variation is None else told(found.variation)
    return {"operations": found.operations, "variation": variation, "is_agreed_work": found.is_agreed_work}


@contextmanager
def refused_in_words() -> Iterator[None]:
    """Turn what a step of the account refuses into a sentence.

    Raises:
        AccountRefusedError: with the sentence.
    """
    try:
        yield
    except NotAcceptedError as refused:
        raise AccountRefusedError(f"{_NOT_ACCEPTED[refused.why]} {refused.option}".strip()) from refused
    except NotVariedError as refused:
        raise AccountRefusedError(_NOT_VARIED[refused.why]) from refused
    except NotBilledError as refused:
        raise AccountRefusedError(refused.why.words) from refused
    except JobInvalid as invalid:
        raise AccountRefusedError(" ".join(fault.message for fault in invalid.faults[:3])) from invalid
    except (LookupError, StopIteration, TypeError, ValueError) as problem:
        message = "Something is missing or cannot be read: fill in every box."
        raise AccountRefusedError(message) from problem


def _day(asked: dict[str, Any]) -> dt.date:
    return dt.date.fromisoformat(asked["on"])


def _acceptance(asked: dict[str, Any]) -> Acceptance:
    at = dt.datetime.combine(_day(asked), dt.time(12), dt.UTC)
    return Acceptance(
        by=str(asked["by"]),
        at=at,
        means=AcceptedMeans(asked.get("means", AcceptedMeans.PAPER.value)),
        options=[str(each) for each in asked.get("options", ())],
        stored_revision=asked.get("stored_revision"),
    )


def _head(asked: dict[str, Any]) -> VariationHead:
    return VariationHead(
        name=str(asked["name"]),
        cause=VariationCause(asked["cause"]),
        reason=str(asked.get("reason", "")),
        asked_by=str(asked.get("asked_by", "")),
        on=_day(asked),
        stored_revision=asked.get("stored_revision"),
    )


def _bill(job: Job, step: AccountStep, asked: dict[str, Any]) -> Bill:
    on, words = _day(asked), str(asked.get("words", ""))
    if step is AccountStep.STAGE:
        return stage_bill(job, int(asked["number"]), on, words)
    if step is AccountStep.PART:
        return part_bill(job, int(asked["gross_minor"]), on, words)
    if step is AccountStep.VARIATION:
        return variation_bill(job, int(asked["number"]), on, words)
    if step is AccountStep.FINAL:
        return final_bill(job, on, words)
    if step is AccountStep.RETENTION:
        return retention_bill(job, on, words)
    gross = asked.get("gross_minor")
    return credit_note(job, int(asked["number"]), on, words, None if gross is None else int(gross))
