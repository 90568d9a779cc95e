"""The search: single variations first, then sets of them, batch by batch, until the plans that it may make are made.

Batches hang on the job and on what was asked alone, never on how many workers there are or who is first: the same
question brings the same plans on one machine and on many.
"""

from __future__ import annotations

import hashlib
import json
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Any

from pavewright.proposals._aim import ALL_AIMS, Aim
from pavewright.proposals._aims import front_of, no_more_stops
from pavewright.proposals._best import recommended
from pavewright.proposals._figures import figures_read
from pavewright.proposals._mixing import Mixing
from pavewright.proposals._types import NotPlannedError, PieceAsked, Proposal, Proposals, Refused
from pavewright.proposals._variations import with_variations

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Sequence

    from pavewright.proposals._figures import Figures
    from pavewright.proposals._to_try import ToTry
    from pavewright.proposals._types import AskPlans
    from pavewright.proposals._variations import Variation

_BATCH = 24
"""Plans of one batch: so many that several workers are busy, so few that the next batch learns of it."""
_SINGLES_PERCENT = 60
"""Share of the plans that single variations may take. [%]"""


@dataclass
class _Found:
    """What is found so far, by the genes of the plan: for each slot 0 as drawn, else which of its variations."""

    plans: dict[tuple[int, ...], Proposal] = field(default_factory=dict)
    refused: dict[tuple[int, ...], Refused] = field(default_factory=dict)
    planned: int = 0


def find_proposals(
    document: dict[str, Any],
    what: ToTry,
    ask: AskPlans,
    *,
    plans: int = 200,
    aims: Sequence[Aim] = ALL_AIMS,
    report: Callable[[int, int], None] | None = None,
    stopped: Callable[[], bool] | None = None,
    so_far: Callable[[Proposals], None] | None = None,
) -> Proposals:
    """Return the plans that no other one beats, of so many whole plans of a job.

    Args:
        document: The job with what the book gives it.
        what: What may be varied.
        ask: Makes plans.
        plans: How many whole plans are made at most, the job as drawn among them.
        aims: What matters.
        report: Told how many plans are made, and how many will be at most.
        stopped: Whether to stop; what is found so far is the answer then.
        so_far: Given what is found so far after every batch.

    Raises:
        NotPlannedError: the job as drawn could not be planned, or the search was stopped before it was.
    """
    search = _Search(document, what, ask, plans, tuple(aims), report or (lambda _done, _of: None))
    halted = stopped or (lambda: False)
    for batch in search.batches():
        search.run(batch)
        if halted():
            return search.answer(whole=False)
        if so_far is not None:
            so_far(search.answer(whole=False))
    return search.answer(whole=True)


class _Search:
    """A search under way."""

    def __init__(
        self,
        document: dict[str, Any],
        what: ToTry,
        ask: AskPlans,
        plans: int,
        aims: tuple[Aim, ...],
        report: Callable[[int, int], None],
    ) -> None:
        """Begin with nothing but the job as drawn."""
        self._document, self._what, self._ask, self._plans, self._aims = document, what, ask, plans, aims
        self._report = report
        self._found = _Found()
        self._asked: set[tuple[int, ...]] = set()
        self._drawn = (0,) * len(what.slots)
        seed = json.dumps([document, plans, [each.value for each in aims]], sort_keys=True, ensure_ascii=True)
        sizes = tuple(len(ways) for _, ways in what.slots)
        self._mixing = Mixing(hashlib.sha256(seed.encode()).digest(), sizes, what.companions)

    def batches(self) -> Iterator[list[tuple[int, ...]]]:
        """Give the plans to make, each batch once the one before it is made."""
        singles = self._mixing.singles(self._plans * _SINGLES_PERCENT // 100)
        first = [self._drawn, *singles]
        for start in range(0, len(first), _BATCH):
            yield first[start : start + _BATCH]
        while (left := self._plans - len(self._asked)) > 0:
            batch = self._mixing.next_batch(self._scores(), self._asked, self._found.refused.keys(), min(left, _BATCH))
            if not batch:
                return
            yield batch

    def run(self, batch: Iterable[tuple[int, ...]]) -> None:
        """Make the plans of a batch, as far as it is not stopped; genes that do not go together are left out."""
        pieces: dict[str, list[tuple[int, ...]]] = {}
        asked = []
        for genes in batch:
            if len(self._asked) >= self._plans:
                break
            self._asked.add(genes)
            piece = self._piece(genes)
            if piece is None:
                self._found.refused[genes] = Refused.NO_PLAN
                continue
            if piece.key not in pieces:
                asked.append(piece)
            pieces.setdefault(piece.key, []).append(genes)
        came = {}
        for key, answer in self._ask(asked):
            came[key] = answer
            self._found.planned += 1
            self._report(self._found.planned, self._plans)
        for key, all_genes in pieces.items():  # in the order of asking, whoever was first
            for genes in all_genes:
                if key in came:
                    self._take(genes, json.loads(came[key]))

    def answer(self, *, whole: bool) -> Proposals:
        """Return what is found."""
        drawn = self._found.plans.get(self._drawn)
        if drawn is None:
            message = "the job as drawn is not planned"
            raise NotPlannedError(message)
        every = sorted(self._found.plans.items(), key=lambda each: (len(each[1].variations), each[0]))
        proposals = [each for _, each in every]
        kept = front_of([each.figures for each in proposals], self._aims)
        front = tuple(proposals[place] for place in kept)
        counts = {why: list(self._found.refused.values()).count(why) for why in Refused}
        return Proposals(
            aims=self._aims,
            drawn=drawn,
            front=front,
            best=recommended(drawn, front, self._aims),
            planned=self._found.planned,
            refused=tuple((why, count) for why, count in counts.items() if count),
            singles=self._what.count,
            limits=self._what.limits,
            whole=whole,
        )

    def _variations(self, genes: tuple[int, ...]) -> tuple[Variation, ...]:
        chosen = zip(self._what.slots, genes, strict=True)
        return tuple(ways[gene - 1] for (_, ways), gene in chosen if gene)

    def _piece(self, genes: tuple[int, ...]) -> PieceAsked | None:
        variations = self._variations(genes)
        document = with_variations(self._document, variations)
        if document is None:
            return None
        starts = [[each.slot.number, each.start.turn, each.start.rank] for each in variations if each.start]
        payload = json.dumps({"document": document, "starts": starts}, ensure_ascii=False, separators=(",", ":"))
        return PieceAsked(hashlib.sha256(payload.encode()).hexdigest(), payload.encode())

    def _take(self, genes: tuple[int, ...], told: dict[str, Any]) -> None:
        """Take the figures of a plan, or why it is not compared."""
        if told["figures"] is None:
            self._found.refused[genes] = Refused.NO_PLAN
            return
        figures = figures_read(told["figures"])
        drawn = self._found.plans.get(self._drawn)
        if drawn is not None:
            if not set(drawn.figures.rooms) <= set(figures.rooms):
                self._found.refused[genes] = Refused.LESS_KNOWN
                return
            if not no_more_stops(figures, drawn.figures):
                self._found.refused[genes] = Refused.NEW_STOP
                return
        starts = tuple((number, tuple(fields.items())) for number, fields in told["starts"])
        self._found.plans[genes] = Proposal(self._variations(genes), figures, starts)

    def _scores(self) -> list[tuple[tuple[int, ...], Figures]]:
        """Return the plans that the next ones are made of: those that no other one beats, then what each came to."""
        every = sorted(self._found.plans.items(), key=lambda each: (len(each[1].variations), each[0]))
        kept = front_of([each.figures for _, each in every], self._aims)
        front = [every[place] for place in kept]
        rest = [each for place, each in enumerate(every) if place not in set(kept)]
        return [(genes, each.figures) for genes, each in (*front, *rest)]
