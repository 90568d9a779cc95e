"""Quotations that are open to a customer: links with what each shows, questions, and what was accepted.

Of the token of a link only its digest is kept. What a link shows and its PDF are frozen when it is made; the database
itself refuses to change them, and what was accepted.
"""

from __future__ import annotations

import datetime as dt
import hashlib
import json
import secrets
from dataclasses import asdict
from typing import TYPE_CHECKING, Any

import sqlalchemy as sa

from pavewright.record import EntryKind
from pavewright.store._clock import now
from pavewright.store._quotation_types import (
    Acceptance,
    Accepted,
    AcceptedEarlierError,
    Made,
    OpenQuotation,
    Question,
    QuotationClosedError,
    QuotationLink,
    TooManyQuestionsError,
)
from pavewright.store._recording import ToRecord, record
from pavewright.store._saving import kept_in, saved_under
from pavewright.store._tables import ACCEPTANCES, JOBS, QUOTATION_LINKS, QUOTATION_QUESTIONS
from pavewright.store._turns import turn_at
from pavewright.store._types import StaleRevision, UnknownJob
from pavewright.store._who import who_acts
from pavewright.store.hooks._outbox import post
from pavewright.store.hooks._types import Event

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable
    from contextlib import AbstractContextManager

    from sqlalchemy.engine import Connection, Row

    from pavewright.store.outside._of_firm import Outside

    _Opens = Callable[[], AbstractContextManager[Connection]]

_TOKEN_BYTES = 32
"""Random bytes in a token: twice the 128 bits that no guessing comes near. [bytes]"""
_QUESTIONS_MAX = 40
"""Most questions of one link."""
_LINK = tuple(QUOTATION_LINKS.c[name] for name in QuotationLink.__slots__)


class Quotations:
    """The links of one store."""

    def __init__(self, reading: _Opens, writing: _Opens, outside: Outside) -> None:
        """Keep how the store gives a connection to read by, and one to write by, and where its papers stand."""
        self._reading, self._writing, self._outside = reading, writing, outside

    def make(self, made: Made, *, withdraw_others: bool) -> tuple[QuotationLink, str]:
        """Keep a new link and return it with its token, which nobody can read again.

        Args:
            made: What it opens.
            withdraw_others: Whether the other links of the job are withdrawn, but for one that was accepted.

        Raises:
            UnknownJob: none of that name.
            StaleRevision: the job was changed while the quotation was made.
        """
        token, at, name = secrets.token_urlsafe(_TOKEN_BYTES), now(), secrets.token_hex(8)
        row = {
            "id": name,
            "job_id": made.job_id,
            "rev": made.rev,
            "made": at,
            "expires": made.expires.isoformat(),
            "digest": _digest(token),
            "opens": 0,
            "shown": made.shown,
            "pdf": self._outside.put(made.pdf),
            "notice": None if made.notice is None else self._outside.put(made.notice),
            "pdf_sha256": hashlib.sha256(made.pdf).hexdigest(),
            "notice_sha256": None if made.notice is None else hashlib.sha256(made.notice).hexdigest(),
            "who": who_acts() or None,
        }
        with self._writing() as connection:
            turn_at(connection, made.job_id)
            kept = kept_in(connection, made.job_id)
            if kept.rev != made.rev:
                raise StaleRevision(kept)
            for paper in (made.pdf, made.notice or b""):  # before a row is changed for which somebody else may wait
                self._outside.hold(connection, paper)
            if withdraw_others:
                _withdraw_others(connection, made.job_id, name, at)
            connection.execute(QUOTATION_LINKS.insert().values(row))
            facts = {name: row[name] for name in ("rev", "expires", "pdf_sha256")} | {"link": name}
            record(connection, made.job_id, ToRecord(EntryKind.QUOTATION_SHOWN, facts))
            link = _link(connection.execute(sa.select(*_LINK).where(QUOTATION_LINKS.c.id == name)).one())
        return link, token

    def opened(self, token: str, today: dt.date) -> OpenQuotation | None:
        """Return what a token opens; None where it opens nothing, whatever the reason."""
        with self._reading() as connection:
            return _opened(connection, token, today)

    def pdf(self, link_id: str) -> bytes:
        """Return the PDF of a link, the same bytes for both sides.

        Raises:
            UnknownJob: no such link.
        """
        with self._reading() as connection:
            table = QUOTATION_LINKS.c
            row = connection.execute(sa.select(table.pdf, table.pdf_sha256).where(table.id == link_id)).one_or_none()
        if row is None:
            raise UnknownJob(link_id)
        return self._outside.read(bytes(row.pdf), row.pdf_sha256)

    def notice(self, link_id: str) -> bytes | None:
        """Return the papers on cancelling that belong to a link; None where there are none."""
        with self._reading() as connection:
            query = sa.select(QUOTATION_LINKS.c.notice, QUOTATION_LINKS.c.notice_sha256)
            row = connection.execute(query.where(QUOTATION_LINKS.c.id == link_id)).one_or_none()
        return None if row is None or row.notice is None else self._outside.read(bytes(row.notice), row.notice_sha256)

    def note_opened(self, link_id: str) -> None:
        """Note that the customer opened a link now."""
        at, table = now(), QUOTATION_LINKS
        seen = {"opened": sa.func.coalesce(table.c.opened, at), "seen": at, "opens": table.c.opens + 1}
        with self._writing() as connection:
            first = sa.select(table.c.job_id).where(table.c.id == link_id, table.c.opened.is_(None))
            job_id = connection.execute(first).scalar_one_or_none()
            connection.execute(table.update().where(table.c.id == link_id).values(seen))
            if job_id is not None:
                post(connection, Event.QUOTATION_OPENED, {"job": job_id, "link": link_id})

    def ask(self, token: str, words: str, today: dt.date) -> Question:
        """Keep a question of the customer.

        Raises:
            QuotationClosedError: the token opens nothing.
            TooManyQuestionsError: so many were asked that they are better talked over.
        """
        with self._writing() as connection:
            link = _must_open(connection, token, today).link
            counted = sa.select(sa.func.count()).where(QUOTATION_QUESTIONS.c.link_id == link.id)
            if connection.execute(counted).scalar_one() >= _QUESTIONS_MAX:
                raise TooManyQuestionsError
            asked = Question(secrets.token_hex(8), link.id, now(), words, None, None)
            connection.execute(QUOTATION_QUESTIONS.insert().values(asdict(asked) | {"job_id": link.job_id}))
            facts = {"id": asked.id, "link": link.id, "words": words}
            record(connection, link.job_id, ToRecord(EntryKind.QUESTION, facts))
            post(connection, Event.QUESTION_ASKED, {"job": link.job_id, "link": link.id, "question": asked.id})
        return asked

    def answer(self, job_id: str, question_id: str, words: str) -> None:
        """Answer a question; an earlier answer of the same is replaced.

        Raises:
            UnknownJob: no such question.
        """
        table = QUOTATION_QUESTIONS
        with self._writing() as connection:
            turn_at(connection, job_id)
            which = table.update().where(table.c.id == question_id, table.c.job_id == job_id)
            if connection.execute(which.values(answer=words, answered=now(), who=who_acts() or None)).rowcount != 1:
                raise UnknownJob(question_id)
            record(connection, job_id, ToRecord(EntryKind.ANSWER, {"id": question_id, "words": words}))

    def questions(self, *, link_id: str | None = None, job_id: str | None = None) -> tuple[Question, ...]:
        """Return the questions of a link or of a job, in the order in which they came."""
        table = QUOTATION_QUESTIONS
        query = sa.select(*(table.c[name] for name in Question.__slots__)).order_by(table.c.at, table.c.id)
        query = query.where(table.c.link_id == link_id) if link_id is not None else query
        query = query.where(table.c.job_id == job_id) if job_id is not None else query
        with self._reading() as connection:
            return tuple(Question(*row) for row in connection.execute(query).all())

    def waiting(self) -> dict[str, int]:
        """Return the jobs in which questions of customers wait for an answer, with how many."""
        table = QUOTATION_QUESTIONS
        query = sa.select(table.c.job_id, sa.func.count()).where(table.c.answer.is_(None)).group_by(table.c.job_id)
        with self._reading() as connection:
            return {str(row[0]): int(row[1]) for row in connection.execute(query).all()}

    def accepted_jobs(self) -> frozenset[str]:
        """Return the jobs that a customer accepted by a link."""
        with self._reading() as connection:
            return frozenset(connection.execute(sa.select(ACCEPTANCES.c.job_id)).scalars())

    def accept(self, token: str, accepted: Accepted, today: dt.date) -> Acceptance:
        """Keep what the customer accepts; the other open links of the job open nothing from then on.

        Raises:
            QuotationClosedError: the token opens nothing.
            AcceptedEarlierError: it was accepted before; nothing is changed.
        """
        with self._writing() as connection:
            found = _must_open(connection, token, today)
            if found.acceptance is not None:
                raise AcceptedEarlierError(found.acceptance)
            at, link = now(), found.link
            kept = Acceptance(link.id, link.job_id, link.rev, at, accepted, link.pdf_sha256)
            row = {"link_id": link.id, "job_id": link.job_id, "rev": link.rev, "at": at}
            body = json.dumps(asdict(accepted), ensure_ascii=False)
            connection.execute(ACCEPTANCES.insert().values(row | {"body": body, "pdf_sha256": link.pdf_sha256}))
            facts = {"link": link.id, "rev": link.rev, "pdf_sha256": link.pdf_sha256, "accepted": asdict(accepted)}
            record(connection, link.job_id, ToRecord(EntryKind.ACCEPTED, facts))
            post(connection, Event.QUOTATION_ACCEPTED, {"job": link.job_id, "link": link.id, "rev": link.rev})
            _withdraw_others(connection, link.job_id, link.id, at)
        return kept

    def acceptances(self, job_id: str) -> tuple[Acceptance, ...]:
        """Return what was accepted of a job, the first one first."""
        query = sa.select(ACCEPTANCES).where(ACCEPTANCES.c.job_id == job_id).order_by(ACCEPTANCES.c.at)
        with self._reading() as connection:
            return tuple(_acceptance(row) for row in connection.execute(query).all())

    def document_with(self, acceptance: Acceptance) -> str | None:
        """Return the job document in which an acceptance was written; None while it was not."""
        with self._reading() as connection:
            found = saved_under(connection, acceptance.job_id, acceptance.key)
        return None if found is None else str(found.document)

    def links(self, job_id: str) -> tuple[QuotationLink, ...]:
        """Return every link of a job, the last one first."""
        query = sa.select(*_LINK).order_by(QUOTATION_LINKS.c.made.desc(), QUOTATION_LINKS.c.id)
        with self._reading() as connection:
            return tuple(_link(row) for row in connection.execute(query.where(QUOTATION_LINKS.c.job_id == job_id)))

    def numbers(self, link_ids: Iterable[str]) -> dict[str, int]:
        """Return the number of each link among those of its job, the first one being 1; what is no link is left out."""
        mine, other = QUOTATION_LINKS.c, QUOTATION_LINKS.alias()
        earlier = (other.c.made < mine.made) | ((other.c.made == mine.made) & (other.c.id <= mine.id))
        counted = sa.select(mine.id, sa.func.count()).join(other, (other.c.job_id == mine.job_id) & earlier)
        with self._reading() as connection:
            rows = connection.execute(counted.where(mine.id.in_(list(link_ids))).group_by(mine.id)).all()
        return {str(row[0]): int(row[1]) for row in rows}

    def withdraw(self, job_id: str, link_id: str) -> bool:
        """Withdraw a link, so that its token opens nothing any more; return False where there is none of that name."""
        which = QUOTATION_LINKS.update().where(QUOTATION_LINKS.c.id == link_id, QUOTATION_LINKS.c.job_id == job_id)
        withdrawn = sa.func.coalesce(QUOTATION_LINKS.c.withdrawn, now())
        with self._writing() as connection:
            return connection.execute(which.values(withdrawn=withdrawn)).rowcount == 1


def _must_open(connection: Connection, token: str, today: dt.date) -> OpenQuotation:
    found = _opened(connection, token, today)
    if found is None:
        raise QuotationClosedError
    turn_at(connection, found.link.job_id)
    found = _opened(connection, token, today)  # as whoever had the turn before left it
    if found is None:
        raise QuotationClosedError
    return found


def _opened(connection: Connection, token: str, today: dt.date) -> OpenQuotation | None:
    table = QUOTATION_LINKS
    query = sa.select(*_LINK, table.c.shown).join(JOBS, JOBS.c.id == table.c.job_id)
    # a deleted job is off every list, that of its customer too
    query = query.where(table.c.digest == _digest(token), table.c.withdrawn.is_(None), JOBS.c.deleted.is_(None))
    row = connection.execute(query).one_or_none()
    if row is None:
        return None
    link = _link(row[: len(_LINK)])
    of_link = sa.select(ACCEPTANCES).where(ACCEPTANCES.c.link_id == link.id)
    accepted = connection.execute(of_link).one_or_none()
    if accepted is None and today > link.expires:  # who accepted can read his copy for as long as the link stands
        return None
    return OpenQuotation(link, row.shown, None if accepted is None else _acceptance(accepted))


def _withdraw_others(connection: Connection, job_id: str, link_id: str, at: str) -> None:
    table = QUOTATION_LINKS
    accepted = sa.select(ACCEPTANCES.c.link_id).where(ACCEPTANCES.c.job_id == job_id)
    others = (table.c.job_id == job_id) & (table.c.id != link_id) & table.c.withdrawn.is_(None)
    connection.execute(table.update().where(others, table.c.id.not_in(accepted)).values(withdrawn=at))


def _link(row: Any) -> QuotationLink:  # noqa: ANN401 - a row of the fields of a link, in their order
    fields = dict(zip(QuotationLink.__slots__, row, strict=True))
    return QuotationLink(**fields | {"expires": dt.date.fromisoformat(fields["expires"])})


def _acceptance(row: Row[tuple[object, ...]]) -> Acceptance:
    body = json.loads(row.body)
    accepted = Accepted(**{**body, "options": tuple(body["options"]), "names": tuple(body["names"])})
    return Acceptance(row.link_id, row.job_id, row.rev, row.at, accepted, row.pdf_sha256)


def _digest(token: str) -> str:
    """Return what is kept of a token; it is random and long, so that no salt or slow digest is needed."""
    return hashlib.sha256(token.encode("utf-8", "replace")).hexdigest()
