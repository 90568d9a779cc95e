"""Better ways to build a job, searched on all cores or on a cluster, as the screens and the command line show them."""

from __future__ import annotations

import json
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from pavewright import rulebook
from pavewright.desk._better_asked import MOST_PLANS
from pavewright.desk._better_told import proposals_told
from pavewright.desk._read import read_firm, read_job
from pavewright.engine import Failed, Piece, RunStoppedError, run_pieces
from pavewright.firm import with_book, with_learnt
from pavewright.job import Fault, JobInvalid, load_document, to_text, up_to_date
from pavewright.proposals import (
    NothingToVaryError,
    NotPlannedError,
    evaluated,
    find_proposals,
    to_try,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

    from pavewright.desk._better_asked import BetterAsked
    from pavewright.engine import Engine
    from pavewright.job import Job
    from pavewright.proposals import PieceAsked, Proposals
    from pavewright.rules import Rulebook

_VERB = "proposal"


@dataclass(frozen=True, slots=True)
class Here:
    """Whoever waits for a search.

    Attributes:
        engine: What makes the plans.
        report: Told how many plans are made, of how many.
        so_far: Given what is found so far after every batch; None where nobody looks.
        stopped: Whether to stop.
        done: Answers of an earlier search, by their keys: they are taken as they are.
        keep: Given each new answer with its key, so that a later search may take it.
    """

    engine: Engine
    report: Callable[[int, int], None]
    stopped: Callable[[], bool]
    done: Mapping[str, bytes]
    keep: Callable[[str, bytes], None]
    so_far: Callable[[dict[str, Any]], None] | None = None


def proposal_planned(payload: bytes) -> bytes:
    """Return the figures of one plan, for an engine.

    Args:
        payload: JSON with ``document``, the job with what the book gives it, and ``starts`` that are searched for.
    """
    found = evaluated(json.loads(payload), _rules_of)
    return json.dumps(found, sort_keys=True, ensure_ascii=False).encode()


def find_better(document: str | bytes, book: str | bytes | None, asked: BetterAsked, here: Here) -> dict[str, Any]:
    """Return better ways to build a job, what each changes, and which one is recommended.

    Args:
        document: The job.
        book: The firm's book; None where there is none.
        asked: What matters, and how many plans may be made.
        here: Who makes the plans, and who is told.

    Raises:
        JobInvalid: the document is not a job, or too little is known to plan it; says what is missing.
    """
    job, rules = read_job(document)
    firm = read_firm(book)
    job = with_learnt(with_book(job, firm), firm, rules)
    drawn = json.loads(to_text(job))
    raw = up_to_date(load_document(document))
    currency = job.identity.currency

    def told(found: Proposals) -> dict[str, Any]:
        return proposals_told(found, raw, currency, asked.plans)

    looked = here.so_far
    try:
        found = find_proposals(
            drawn,
            to_try(job, rules, firm),
            _asker(here),
            plans=min(asked.plans, MOST_PLANS),
            aims=asked.aims,
            report=here.report,
            stopped=here.stopped,
            so_far=None if looked is None else lambda now: looked(told(now)),
        )
    except NothingToVaryError as nothing:
        missing = tuple(Fault(each.path, each.words) for each in nothing.missing)
        raise JobInvalid(missing or (Fault("areas", _NOT_LAID),)) from nothing
    except NotPlannedError as nothing:
        raise JobInvalid((Fault("", _NOT_PLANNED),)) from nothing
    return told(found)


_NOT_LAID = "This job cannot be laid yet: make its plan, and see what it asks for."
_NOT_PLANNED = "The job as drawn was not planned before the search was stopped: start again."


def _asker(here: Here) -> Callable[[Sequence[PieceAsked]], Iterable[tuple[str, bytes]]]:
    """Return what makes plans on an engine; where it is stopped in the midst, what was made counts."""

    def ask(pieces: Sequence[PieceAsked]) -> Iterator[tuple[str, bytes]]:
        wanted = [Piece(each.key, each.payload) for each in pieces]
        try:
            for key, answer in run_pieces(
                _VERB, wanted, engine=here.engine, stopped=here.stopped, done=dict(here.done)
            ):
                if isinstance(answer, Failed):
                    continue  # a fault of the program or a lost worker: this plan is not compared
                if key not in here.done:
                    here.keep(key, answer)
                yield key, answer
        except RunStoppedError:
            return

    return ask


def _rules_of(job: Job) -> Rulebook:
    return rulebook.load(rulebook.edition_of(job.identity.locality, job.identity.edition))
