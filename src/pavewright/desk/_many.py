"""Many jobs planned by the workers of an engine, and given in their order as if they were planned here."""

from __future__ import annotations

import pickle
from typing import TYPE_CHECKING

from pavewright.desk._spread import PartFailedError
from pavewright.desk._verbs import make_plan_so_far
from pavewright.engine import Common, Failed, Piece, run_pieces
from pavewright.job import Fault, JobInvalid

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from pavewright.engine import Engine
    from pavewright.pipeline import PlanSoFar

    PlanOrFaults = PlanSoFar | tuple[Fault, ...]


def whole_plan(payload: bytes, book: bytes | None = None) -> bytes:
    """Return the plan of a job, or its faults, as they are carried between two runs of the same program.

    Args:
        payload: The job document.
        book: The firm's book; None where there is none.
    """
    found: PlanOrFaults
    try:
        found = make_plan_so_far(payload, None, book)
    except JobInvalid as invalid:
        found = invalid.faults
    return pickle.dumps(found, protocol=pickle.HIGHEST_PROTOCOL)


def plans_by(
    engine: Engine, documents: Iterable[str | bytes | tuple[Fault, ...]], book: str | bytes | None = None
) -> Iterator[PlanOrFaults]:
    """Give the plan of each job, or its faults, in the order of the jobs.

    Jobs are taken as workers need them. A plan that comes before that of an earlier job waits for it.

    Args:
        engine: What plans.
        documents: The jobs; for one that cannot be read, its faults.
        book: The firm's book; None for none.

    Raises:
        PartFailedError: the plan of a job raised an error, or ended every worker that began with it.
        EngineLostError: the cluster went away.
        OtherProgramError: a worker runs another version of the program.
    """
    common = None if book is None else Common.of(_bytes(book))
    waiting: dict[int, PlanOrFaults] = {}

    def pieces() -> Iterator[Piece]:
        for number, each in enumerate(documents):
            if isinstance(each, tuple):
                waiting[number] = each
            else:
                yield Piece(str(number), _bytes(each), common)

    given = 0
    for key, answer in run_pieces("whole_plan", pieces(), engine=engine):
        if isinstance(answer, Failed):
            message = f"job {key}: {answer.error or 'every worker that began with it ended'} {answer.message}".strip()
            raise PartFailedError(message)
        # the same program made it: whoever is reached as an engine runs what it is sent, and is trusted as this process
        waiting[int(key)] = pickle.loads(answer)  # noqa: S301
        while given in waiting:
            yield waiting.pop(given)
            given += 1
    while given in waiting:
        yield waiting.pop(given)
        given += 1


def _bytes(document: str | bytes) -> bytes:
    return document.encode() if isinstance(document, str) else document
