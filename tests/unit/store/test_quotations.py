"""Links to quotations: what is shown and accepted is kept as it was, whoever asks for a change and by which way."""

from __future__ import annotations

import datetime as dt
import json

import pytest
from sqlalchemy.exc import DBAPIError

from pavewright.store import (
    Accepted,
    AcceptedEarlierError,
    Made,
    QuotationClosedError,
    StaleRevision,
    TooManyQuestionsError,
    back_up,
    open_file,
    restore,
    restore_open,
)

TODAY = dt.date(2027, 4, 12)
LAST = dt.date(2027, 4, 30)
WHAT = Accepted("Ada Example", "2027-04-12", (1, 3), ("One", "Three"), 120_000, "GBP", "M1 1L90 90", "")


def _job(store, title="Terrace"):
    return store.add(json.dumps({"identity": {"title": title}})).id


def _link(store, job, **changes):
    made = {"rev": store.job(job).rev, "expires": LAST, "shown": '{"a": 1}', "pdf": b"%PDF of it"} | changes
    withdraw = made.pop("withdraw_others", False)
    return store.quotations.make(Made(job, **made), withdraw_others=withdraw)


def test_a_link_opens_what_was_frozen_until_its_last_day(store):
    link, token = _link(store, _job(store))
    opened = store.quotations.opened(token, LAST)
    assert (opened.shown, opened.link.rev, opened.acceptance) == ('{"a": 1}', 1, None)
    assert store.quotations.pdf(link.id) == b"%PDF of it"
    assert store.quotations.opened(token, LAST + dt.timedelta(days=1)) is None
    assert store.quotations.opened(token[:-1], TODAY) is None
    assert store.quotations.withdraw(link.job_id, link.id)
    assert store.quotations.opened(token, TODAY) is None
    assert not store.quotations.withdraw("other", link.id)


def test_a_link_is_made_of_the_revision_that_stands(store):
    job = _job(store)
    store.save(job, 1, json.dumps({"identity": {"title": "Changed"}}))
    with pytest.raises(StaleRevision):
        _link(store, job, rev=1)
    assert store.quotations.links(job) == ()


def test_a_quotation_is_accepted_once_and_closes_the_other_links_of_its_job_alone(store):
    job, other_job = _job(store), _job(store, "Drive")
    (link, token), (_, second), (_, elsewhere) = _link(store, job), _link(store, job), _link(store, other_job)
    kept = store.quotations.accept(token, WHAT, TODAY)
    assert (kept.rev, kept.accepted, kept.pdf_sha256) == (1, WHAT, link.pdf_sha256)
    with pytest.raises(AcceptedEarlierError) as refused:
        store.quotations.accept(token, WHAT, TODAY)
    assert refused.value.acceptance == kept
    with pytest.raises(QuotationClosedError):
        store.quotations.accept(second, WHAT, TODAY)
    assert store.quotations.opened(second, TODAY) is None
    assert store.quotations.opened(elsewhere, TODAY) is not None
    assert store.quotations.acceptances(job) == (kept,)
    after = store.quotations.opened(token, LAST + dt.timedelta(days=400))
    assert after.acceptance == kept  # who accepted can read his copy later too
    _link(store, job, withdraw_others=True)
    assert store.quotations.opened(token, TODAY) is not None


_IN_PLACE = """
INSERT OR REPLACE INTO quotation_link
(id, job_id, rev, made, expires, digest, withdrawn, opened, seen, opens, shown, pdf, notice, pdf_sha256)
SELECT id, job_id, 9, made, expires, digest, withdrawn, opened, seen, opens, shown, pdf, notice, pdf_sha256
FROM quotation_link
"""


@pytest.mark.parametrize(
    "change",
    [
        "UPDATE acceptance SET body = '{}'",
        "UPDATE acceptance SET pdf_sha256 = 'f'",
        "UPDATE acceptance SET at = '2020-01-01'",
        "DELETE FROM acceptance",
        "INSERT OR REPLACE INTO acceptance (link_id, job_id, rev, at, body, pdf_sha256) SELECT link_id, job_id, 9, at, body, pdf_sha256 FROM acceptance",
        _IN_PLACE,
        "UPDATE quotation_link SET pdf = X'00'",
        "UPDATE quotation_link SET shown = '{}', withdrawn = NULL",
        "UPDATE quotation_link SET pdf_sha256 = 'f'",
        "UPDATE quotation_link SET rev = 9",
        "DELETE FROM quotation_link",
    ],
)
def test_the_database_itself_refuses_to_change_what_was_shown_or_accepted(store, change):
    job = _job(store)
    _, token = _link(store, job)
    kept = store.quotations.accept(token, WHAT, TODAY)
    if not store.is_file:
        change = change.replace("OR REPLACE ", "").replace("X'00'", r"'\x00'")
    with pytest.raises(DBAPIError, match="stays as it was|unique"), store.writing() as connection:
        connection.exec_driver_sql(change)
    assert store.quotations.acceptances(job) == (kept,)
    assert store.quotations.opened(token, TODAY).shown == '{"a": 1}'


def test_a_job_that_is_removed_for_good_takes_its_links_along(store):
    job = _job(store)
    _, token = _link(store, job)
    store.quotations.ask(token, "When?", TODAY)
    store.quotations.accept(token, WHAT, TODAY)
    store.deleted.put(job)
    assert store.quotations.opened(token, TODAY) is None
    store.deleted.bring_back(job)
    assert store.quotations.opened(token, TODAY) is not None
    store.deleted.put(job)
    store.deleted.remove(job)
    assert store.quotations.acceptances(job) == ()


def test_questions_are_bounded_and_belong_to_their_link(store):
    job = _job(store)
    (one, token), (other, _) = _link(store, job), _link(store, job)
    for number in range(40):
        store.quotations.ask(token, f"Question {number}", TODAY)
    with pytest.raises(TooManyQuestionsError):
        store.quotations.ask(token, "One more", TODAY)
    assert len(store.quotations.questions(link_id=one.id)) == 40
    assert store.quotations.questions(link_id=other.id) == ()
    with pytest.raises(QuotationClosedError):
        store.quotations.ask("x", "Hello", TODAY)


@pytest.mark.parametrize("is_open", [True, False])
def test_a_backup_that_is_brought_back_opens_no_withdrawn_link_and_loses_no_acceptance(tmp_path, is_open):
    path, backup = tmp_path / "jobs.sqlite", tmp_path / "backup.sqlite"
    store = open_file(path)
    job = _job(store)
    (withdrawn, gone), (_, token) = _link(store, job), _link(store, job)
    back_up(path, backup)
    store.quotations.withdraw(job, withdrawn.id)
    _, later = _link(store, job)
    asked = store.quotations.ask(later, "Where?", TODAY)
    kept = store.quotations.accept(token, WHAT, TODAY)
    if is_open:
        restore_open(backup, path)
    else:
        store.close()
        restore(backup, path)
        store = open_file(path)
    assert store.quotations.opened(gone, TODAY) is None
    assert store.quotations.opened(later, TODAY) is None  # closed by the acceptance
    assert store.quotations.acceptances(job) == (kept,)
    assert store.quotations.questions(job_id=job) == (asked,)
    store.close()
