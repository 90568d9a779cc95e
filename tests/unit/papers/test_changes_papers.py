"""Slips, bills and the account: the sums are those of the account, and what cannot be sent is no bill."""

from __future__ import annotations

import datetime as dt
from types import SimpleNamespace

import pytest
from tests.unit.account.jobs import STANDARD, accepted, bare, job_of, net, varied

from pavewright import firm, rulebook
from pavewright.account import account, credit_note, final_bill, stage_bill
from pavewright.job import TaxRegime
from pavewright.job.agreed import (
    Bill,
    BillKind,
    DrawnArea,
    DrawnCorner,
    DrawnLayer,
    Received,
    VariationMeasure,
    VariationMeasureKind,
    VariationState,
)
from pavewright.papers._input import PaperInput
from pavewright.papers.changes import account_document, bills_document, variations_document
from pavewright.papers.look import as_data
from pavewright.units import minor_to_text

DAY = dt.date(2027, 3, 1)
REVERSE = (TaxRegime.REVERSE_CHARGE, 20.0)


def book(**parts):
    empty = firm.read('{"format": "pavewright.firm", "version": 1}')
    return empty.model_copy(update={"firm": empty.firm.model_copy(update={"name": "Invented Paving"} | parts)})


REGISTERED = book(tax_status=firm.TaxStatus.REGISTERED, tax_number="GB 000 0000 00")


def given(job, of=REGISTERED):
    return PaperInput(SimpleNamespace(job=job), rulebook.load("england"), of)


def text(document):
    """All words of a document."""

    def words(value):
        if isinstance(value, dict):
            return " ".join(map(words, value.values()))
        return " ".join(map(words, value)) if isinstance(value, list | tuple) else str(value)

    return " ".join(f"{sheet.title} {words([as_data(each) for each in sheet.blocks])}" for sheet in document.sheets)


@pytest.fixture(scope="module")
def job():
    layers = [DrawnLayer(name="sub-base", material="sub_base", thickness_mm=each) for each in (100.0, 220.0)]
    corners = tuple(DrawnCorner(x_mm=x, y_mm=y, finished_mm=9800.0) for x, y in ((0.0, 0.0), (4e3, 0.0), (4e3, 3e3)))
    first = varied(
        1,
        [net(50_000)],
        reason="Soft clay.",
        asked_by="A. Paver",
        days=1,
        decided_on=dt.date(2027, 2, 2),
        measures=(
            VariationMeasure(kind=VariationMeasureKind.DIG_DEPTH, where="Patio", before=250.0, after=370.0),
            VariationMeasure(kind=VariationMeasureKind.LOADS, before=1.0, after=2.0),
        ),
        before=(DrawnArea(name="Patio", corners=corners, layers=(layers[0],)),),
        after=(DrawnArea(name="Patio", corners=corners[:2], layers=(layers[1],)),),
    )
    job = job_of(accepted([net(1_000_000)], retention=5.0))
    job = job.model_copy(update={"variations": (first, varied(2, [net(7)], VariationState.PROPOSED, gaps=2))})
    job = job.model_copy(update={"bills": (stage_bill(job, 1, DAY),)})
    job = job.model_copy(update={"bills": (*job.bills, credit_note(job, 1, DAY, "billed twice", 50_000))})
    return job.model_copy(update={"received": (Received(on=DAY, amount_minor=200_000, bill=1),)})


def test_a_slip_says_why_how_much_of_what_at_what_price_and_waits_for_two_signatures(job):
    made = variations_document(given(job))
    assert [sheet.title for sheet in made.sheets] == [
        "Variation 1: Change 1",
        "Variation 2: Change 2",
        "Register of variations",
    ]
    words = text(made)
    for expected in (
        "Soft clay.",
        "A. Paver",
        "250 mm",
        "370 mm",
        "+120 mm",
        "+1 load",
        "+£600.00",
        "1 working day later",
    ):
        assert expected in words.replace("\u202f", " "), expected
    kinds = {each["kind"] for each in as_data(made.sheets[0].blocks)} | {"signatures"}
    assert {"together", "signatures"} <= kinds
    assert "2 more of what it takes has no price" in words
    assert words.count("Please sign before this work is done") == 1


def test_the_sums_on_the_papers_are_those_of_the_account(job):
    found = account(job)
    final, bills = text(account_document(given(job))), text(bills_document(given(job)))
    for minor in (found.agreed_minor, found.billed_minor, found.due_minor, found.paid_minor, found.owing_minor):
        assert minor_to_text(minor, "GBP") in final
    for standing in found.bills:
        assert minor_to_text(abs(standing.due_minor), "GBP") in bills
        assert minor_to_text(standing.owing_minor, "GBP") in bills
    assert "Account so far" in final
    assert "Variation 2 (Change 2) is not decided" in final


def test_bills_are_numbered_after_the_job_and_say_whether_they_are_tax_invoices(job):
    said = [sheet.title for sheet in bills_document(given(job)).sheets]
    assert said == ["Tax invoice T-1-001", "Credit note T-1-002"]
    for of, words in (
        (None, "not entered whether the firm is registered"),
        (book(tax_status=firm.TaxStatus.REGISTERED), "tax number is not entered"),
    ):
        made = bills_document(given(job, of))
        assert made.sheets[0].title == "Invoice T-1-001"
        assert "not a tax invoice" in text(made)
        assert words in text(made)
    assert "not a tax invoice" not in text(bills_document(given(job)))


def test_a_firm_that_is_not_registered_sends_no_bill_with_tax(job):
    made = bills_document(given(job, book(tax_status=firm.TaxStatus.NOT_REGISTERED)))
    assert made.sheets[0].title == "Bill T-1-001 is not to be sent"
    free = (TaxRegime.NONE, None)
    none = job_of(accepted([net(1_000_000, free)]))
    none = none.model_copy(update={"bills": (stage_bill(none, 1, DAY),)})
    made = bills_document(given(none, book(tax_status=firm.TaxStatus.NOT_REGISTERED)))
    assert made.sheets[0].title == "Invoice T-1-001"
    assert "the firm is not registered for tax" in text(made)


def test_a_bill_for_more_than_was_agreed_is_no_bill_on_paper():
    over = job_of(accepted([net(1_000)]))
    bill = Bill(number=1, kind=BillKind.STAGE, on=DAY, sums=(net(2_000, STANDARD),))
    made = bills_document(given(over.model_copy(update={"bills": (bill,)})))
    assert made.sheets[0].title == "Bill T-1-001 is not to be sent"
    assert "more is billed than was agreed" in text(made)


def test_a_bill_says_the_words_of_a_reverse_charge():
    job = job_of(accepted([net(1_000_000, REVERSE)]))
    job = job.model_copy(update={"bills": (final_bill(job, DAY),)})
    words = text(bills_document(given(job)))
    assert "Reverse charge: the customer pays this tax" in words
    assert minor_to_text(200_000, "GBP") in words


def test_what_is_approved_later_changes_no_bill_that_was_sent(job):
    before = text(bills_document(given(job)))
    later = job.variations[1].model_copy(update={"state": VariationState.APPROVED, "decided_on": dt.date(2027, 4, 1)})
    assert text(bills_document(given(job.model_copy(update={"variations": (job.variations[0], later)})))) == before


def test_a_final_account_is_signed_and_a_job_without_any_has_no_paper():
    job = job_of(accepted([net(1_000_000)]))
    job = job.model_copy(update={"bills": (final_bill(job, DAY),)})
    made = account_document(given(job))
    assert made.sheets[0].title == "Final account"
    assert "This account is agreed." in text(made)
    assert [each(given(bare())) for each in (variations_document, bills_document, account_document)] == [None] * 3
