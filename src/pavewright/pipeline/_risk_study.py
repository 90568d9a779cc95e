"""A risk study in parts: each hangs on the plan, the seed and its own name alone, so it may be worked out anywhere."""

from __future__ import annotations

import io
import json
from functools import cached_property
from typing import TYPE_CHECKING, Any

import numpy as np

from pavewright.chance import MAX_CAUSES, MAX_DRAWS, even_draws, shares_of, swapped
from pavewright.pipeline._risk_facts import fact_changes, fact_extra, other_facts
from pavewright.pipeline._risk_model import RiskModel
from pavewright.pipeline._risk_told import driver_of, risk_told
from pavewright.pipeline._types import Room

if TYPE_CHECKING:
    from collections.abc import Mapping

    from numpy.typing import NDArray

    from pavewright.pipeline._risk_draws import Drawn
    from pavewright.pipeline._risk_types import Driver, FactChange, Risk
    from pavewright.pipeline._types import Plan, PlanSoFar
    from pavewright.rules import Rulebook

    Row = NDArray[np.float64]

USUAL_DRAWS = 1024
"""Draws in each replicate where nobody says another number. [-]"""
MOST_DRAWS = MAX_DRAWS
"""Draws in each replicate at most. [-]"""
REPLICATES = 8
"""So often is everything drawn anew, each time by a seed of its own: their differences give the errors. [-]"""
_SHARE_DRAWS = 2048
_TOGETHER = 8
"""Causes that are looked at in one part: a cause takes a hundredth of a second. [-]"""
FOR_RISK = (Room.COST, Room.WATER, Room.BUILD_UPS, Room.EARTHWORKS)
"""The rooms without which nothing is drawn."""


class RiskStudy:
    """The risk of one price: its parts by name, the answer to each, and the whole of all answers."""

    def __init__(
        self, made: Plan, drawn_from: Plan | PlanSoFar, rules: Rulebook, draws: int, seed: int, *, facts: bool
    ) -> None:
        """Begin with a plan that has a price.

        Args:
            made: The plan, whole up to its price.
            drawn_from: The same as it was made, with its dates where it has any.
            rules: The rulebook.
            draws: Draws in each replicate, a power of two. [-]
            seed: Seed of the first replicate; each further one has the next number. [-]
            facts: Whether the job is planned again with single facts changed.
        """
        self.made, self._programme, self._rules = made, drawn_from.programme, rules
        self.draws, self.seed = draws, seed
        self._facts = len(other_facts(made.job, rules)) if facts else 0

    @cached_property
    def parts(self) -> tuple[str, ...]:
        """Names of the parts, as they are told to whoever waits."""
        count = len(self._causes)
        chunks = range(0, count, _TOGETHER)
        return (
            *(f"drawing, {number + 1} of {REPLICATES}" for number in range(REPLICATES)),
            *(["what drives the price"] if count else []),
            *(f"what drives the price, {start + 1} to {min(start + _TOGETHER, count)} of {count}" for start in chunks),
            *(f"one other fact, {number + 1} of {self._facts}" for number in range(self._facts)),
        )

    def answer(self, part: str) -> bytes:
        """Return the answer to a part, the same wherever it is worked out.

        Args:
            part: Its name.

        Raises:
            ValueError: there is no such part.
        """
        place = self.parts.index(part)
        if place < REPLICATES:
            return self._replicate(self.seed + place)
        drivers = len(self.parts) - self._facts
        if place == REPLICATES and drivers > REPLICATES:
            causes = len(self._causes)
            return _packed(self._total(self._both[:, :causes]), self._total(self._both[:, causes:]))
        if place < drivers:
            return self._chunk((place - REPLICATES - 1) * _TOGETHER)
        return json.dumps(fact_extra(self.made, self._programme, self._rules, place - drivers)).encode()

    def whole(self, answers: Mapping[str, bytes]) -> Risk:
        """Return the risk, of the answers to all parts, in whatever order they came.

        Args:
            answers: The answers by the names of their parts.
        """
        told = [answers[part] for part in self.parts]
        drivers = len(told) - self._facts
        rows = [_unpacked(each) for each in told[:REPLICATES]]
        return risk_told(
            self._model,
            rows,
            (self.draws, self.seed),
            self._drivers([_unpacked(each) for each in told[REPLICATES:drivers]]),
            self._fact_changes(told[drivers:]),
        )

    @cached_property
    def _model(self) -> RiskModel:
        return RiskModel(self.made, () if self._programme is None else self._programme.hires, self._rules)

    @cached_property
    def _causes(self) -> tuple[Any, ...]:
        return self._model.causes[: MAX_CAUSES // 2]

    @cached_property
    def _both(self) -> Row:
        return even_draws(_SHARE_DRAWS, 2 * len(self._causes), self.seed)

    def _replicate(self, seed: int) -> bytes:
        """Return price, cost and needs of each draw, and which lines some draw moves."""
        model = self._model
        drawn = self._drawn(even_draws(self.draws, len(self._causes), seed) if self._causes else None)
        moved = np.array([float(np.ptp(each)) != 0.0 for each in model.amounts(drawn)], dtype=np.float64)
        rows = [model.total(drawn), model.burdened(drawn), *(need(drawn) for need in model.needs.values())]
        return _packed(moved, *rows)

    def _drawn(self, even: Row | None) -> Drawn:
        if even is None:
            return self._model.drawn({}, self.draws)
        return self._model.drawn({key: even[:, number] for number, key in enumerate(self._causes)}, len(even))

    def _total(self, even: Row) -> Row:
        return self._model.total(self._drawn(even))

    def _chunk(self, start: int) -> bytes:
        """Return of some causes what the draws come to with each swapped, and what each does alone."""
        rows = []
        even = (np.arange(_SHARE_DRAWS) + 0.5) / _SHARE_DRAWS
        for cause, key in enumerate(self._causes[start : start + _TOGETHER], start):
            rows += [
                self._total(swapped(self._both, cause)),
                self._model.total(self._model.drawn({key: even}, _SHARE_DRAWS)),
            ]
        return _packed(*rows)

    def _drivers(self, told: list[list[Row]]) -> tuple[Driver, ...]:
        if not told:
            return ()
        (from_one, from_two), *chunks = told
        rows = [row for chunk in chunks for row in chunk]
        shares = shares_of(from_one, from_two, rows[::2])
        every = zip(self._causes, shares, rows[1::2], strict=True)
        found = [driver for key, share, alone in every if (driver := driver_of(self.made, key, share, alone))]
        return tuple(sorted(found, key=lambda each: (-each.total, each.words)))

    def _fact_changes(self, told: list[bytes]) -> tuple[FactChange, ...]:
        extras = [json.loads(each) for each in told]
        return fact_changes(self.made, self._rules, extras) if told else ()


def risk_study(
    made: Plan | PlanSoFar,
    rules: Rulebook,
    draws: int = USUAL_DRAWS,
    seed: int = 1,
    *,
    facts: bool = True,
) -> RiskStudy | None:
    """Return the study of the risk of a plan, in parts; None where it has no price.

    Args:
        made: The plan.
        rules: Its rulebook.
        draws: Draws in each replicate, a power of two. [-]
        seed: Seed of the first replicate. [-]
        facts: Whether the job is planned again with single facts changed.
    """
    whole = made.with_rooms(FOR_RISK)
    if whole is None or not whole.cost.lines:
        return None
    return RiskStudy(whole, made, rules, draws, seed, facts=facts)


def _packed(*rows: Row) -> bytes:
    """Return rows of numbers as bytes: every bit of them, on whatever machine."""
    sink = io.BytesIO()
    for row in rows:
        np.save(sink, np.ascontiguousarray(row, dtype="<f8"), allow_pickle=False)
    return sink.getvalue()


def _unpacked(told: bytes) -> list[Row]:
    source, found = io.BytesIO(told), []
    while source.tell() < len(told):
        found.append(np.load(source, allow_pickle=False))
    return found
