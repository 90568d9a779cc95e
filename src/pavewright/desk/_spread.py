"""Studies of one job that are spread over the workers of an engine: the risk of its price, and a storm."""

from __future__ import annotations

import json
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING, Any

from pavewright import rulebook
from pavewright.desk._read import read_firm, read_job
from pavewright.desk._risks import study_of
from pavewright.desk._verbs import make_plan_so_far
from pavewright.engine import Common, Failed, Piece, run_pieces
from pavewright.flow import storm_bytes, storm_read
from pavewright.pipeline import USUAL_DRAWS, Room, plan_rooms
from pavewright.water import storm_study

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from pavewright.engine import Engine, Progress
    from pavewright.pipeline import Plan, PlanSoFar, Risk, RiskStudy
    from pavewright.water import AreaStorm, StormStudy


class PartFailedError(Exception):
    """A part of a study has no answer; the message says which and why."""


@dataclass(frozen=True, slots=True)
class Spread:
    """Where a study is worked out, and who waits for it.

    Attributes:
        engine: What does the parts.
        document: The job document, as the plan was made of it.
        book: The firm's book; None where the plan was made without one.
        report: Told how far it is; None where nobody looks.
        stopped: Asked again and again whether to stop; None where nobody stops it.
    """

    engine: Engine
    document: str | bytes
    book: str | bytes | None = None
    report: Callable[[Progress], None] | None = None
    stopped: Callable[[], bool] | None = None

    def answers(self, verb: str, asked: dict[str, Any], parts: Sequence[str]) -> dict[str, bytes]:
        """Return the answers to all parts by their names.

        Args:
            verb: Verb of the register.
            asked: What all parts have in common beside the job.
            parts: Their names.

        Raises:
            PartFailedError: one has no answer.
            RunStoppedError: it was stopped.
            EngineLostError: the cluster went away.
            OtherProgramError: a worker runs another version of the program.
        """
        job = {"document": _text(self.document), "book": None if self.book is None else _text(self.book)}
        common = Common.of(json.dumps(job | asked, sort_keys=True, ensure_ascii=False).encode())
        pieces = [Piece(part, part.encode(), common) for part in parts]
        found = {}
        for part, answer in run_pieces(verb, pieces, engine=self.engine, report=self.report, stopped=self.stopped):
            if isinstance(answer, Failed):
                message = f"{part}: {answer.error or 'every worker that began with it ended'} {answer.message}".strip()
                raise PartFailedError(message)
            found[part] = answer
        return found


def spread_risk(made: PlanSoFar, here: Spread, draws: int = USUAL_DRAWS) -> Risk:
    """Return the risk of the price of a plan, worked out by an engine: the same as without one.

    Args:
        made: The plan.
        here: Where it is worked out, with the documents that the plan is made of.
        draws: Draws in each replicate, a power of two. [-]

    Raises:
        JobInvalid: it has no price yet; says what is missing for one.
        PartFailedError: a part has no answer.
    """
    study = study_of(made, draws)
    return study.whole(here.answers("risk_part", {"draws": draws}, study.parts))


def spread_storm(
    made: Plan, here: Spread, rain_mm_per_h: float | None = None, rain_min: float = 10.0, cell_mm: float = 100.0
) -> tuple[AreaStorm, ...]:
    """Return what a storm does on every area of a plan, run by an engine: the same as without one.

    Args:
        made: The plan.
        here: Where it runs, with the documents that the plan is made of.
        rain_mm_per_h: Rain; the design rain if none is given. [mm/h]
        rain_min: How long it rains. [min]
        cell_mm: Side of the cells. [mm]

    Raises:
        StormRefusedError: rain or cells are not what they can be.
        PartFailedError: a part has no answer.
    """
    study = storm_study(made.survey, made.levels, rulebook.load(made.edition), rain_mm_per_h, rain_min, cell_mm)
    answers = here.answers("storm_part", {"storm": [rain_mm_per_h, rain_min, cell_mm]}, study.parts)
    return study.whole({part: storm_read(answer) for part, answer in answers.items()})


def risk_part(payload: bytes, common: bytes) -> bytes:
    """Return the answer to a part of a risk study, for an engine.

    Args:
        payload: Name of the part.
        common: JSON with ``document``, ``book`` and ``draws``.
    """
    return _risk_study(common).answer(payload.decode())


def storm_part(payload: bytes, common: bytes) -> bytes:
    """Return the storm of a part as bytes, for an engine.

    Args:
        payload: Name of the part.
        common: JSON with ``document``, ``book`` and ``storm``: rain, minutes and side of the cells.
    """
    return storm_bytes(_storm_study(common).run(payload.decode()))


@lru_cache(maxsize=1)
def _risk_study(common: bytes) -> RiskStudy:
    """Return the study of a job, planned once for all of its parts that come to this worker."""
    asked = json.loads(common)
    return study_of(make_plan_so_far(asked["document"], None, asked["book"]), asked["draws"])


@lru_cache(maxsize=1)
def _storm_study(common: bytes) -> StormStudy:
    asked = json.loads(common)
    job, rules = read_job(asked["document"])
    made = plan_rooms(job, rules, (Room.LEVELS,), read_firm(asked["book"]))
    assert made.levels is not None  # noqa: S101 - whoever asks has them
    return storm_study(made.survey, made.levels, rulebook.load(made.edition), *asked["storm"])


def _text(document: str | bytes) -> str:
    return document if isinstance(document, str) else document.decode("utf-8")
