"""Which plans are made next: single variations spread over what may be varied, then sets of those that did well."""

from __future__ import annotations

import hashlib
from typing import TYPE_CHECKING

from pavewright.proposals._aim import ALL_AIMS
from pavewright.proposals._gains import gain_of, whole_gain

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Sequence

    from pavewright.proposals._figures import Figures

    Genes = tuple[int, ...]
    Score = Callable[[Figures, Figures], float]

_TRIES = 60
"""So often another set is drawn before it is taken that there is no new one."""
_PARENTS = 12
_PERCENT = 100
_BESIDE = 2
"""So many ways of the slot that is varied together with another are tried with each way of that."""
_MIXED_PERCENT = 60
"""Share of the sets that are mixed of two; the rest change one thing of one. [%]"""


class Mixing:
    """Draws that hang on a seed alone."""

    def __init__(self, seed: bytes, sizes: tuple[int, ...], companions: tuple[int | None, ...]) -> None:
        """Begin with a seed.

        Args:
            seed: What the draws hang on.
            sizes: How many variations each slot has.
            companions: For each slot the place of the slot that is varied together with it; None where there is none.
        """
        self._seed, self._sizes, self._companions, self._count = seed, sizes, companions, 0

    def singles(self, most: int) -> list[Genes]:
        """Return single variations, the first of each slot first, so that none is left out for another's sake.

        Args:
            most: How many at most.
        """
        found: dict[Genes, None] = {}
        for way in range(1, max(self._sizes, default=0) + 1):
            for slot, size in enumerate(self._sizes):
                if way <= size:
                    found.update(dict.fromkeys(self._single(slot, way)))
        return list(found)[:most]

    def next_batch(
        self, made: list[tuple[Genes, Figures]], asked: Collection[Genes], refused: Collection[Genes], size: int
    ) -> list[Genes]:
        """Return sets that were not made yet.

        Args:
            made: The plans that were made, those that no other beats first.
            asked: What was asked already.
            refused: What of it is not compared; a variation that stopped the job by itself is drawn no more.
            size: How many at most.
        """
        drawn = (0,) * len(self._sizes)
        figures = dict(made)
        if drawn not in figures or not self._sizes:
            return []
        found: dict[Genes, None] = {}
        for genes in self._put_together(figures, figures[drawn]):
            if genes not in asked:
                found.setdefault(genes)
        parents = [genes for genes, _ in made[:_PARENTS]]
        ways = [self._not_refused(slot, count, refused) for slot, count in enumerate(self._sizes)]
        for _ in range(size * _TRIES):
            if len(found) >= size:
                break
            genes = self._child(parents, ways)
            if genes not in asked:
                found.setdefault(genes)
        return list(found)[:size]

    def _put_together(self, figures: dict[Genes, Figures], drawn: Figures) -> list[Genes]:
        """Return for every aim, and for all of them, the best variations of all slots taken together."""
        scores: list[Score] = [whole_gain, *(gain_of(aim) for aim in ALL_AIMS)]
        drawn_genes = (0,) * len(self._sizes)
        found: list[Genes] = []
        for score in scores:
            best = []
            for slot, size in enumerate(self._sizes):
                gains = [
                    (score(drawn, figures[one]), -place, one)
                    for place, one in enumerate(one for way in range(1, size + 1) for one in self._single(slot, way))
                    if one in figures
                ]
                best.append(max((each for each in gains if each[0] > 0.0), default=(0.0, 0, drawn_genes)))
            # all of them, then one fewer at a time, the smallest gain first: those that stand in each other's way part
            order = sorted(best, key=lambda each: each[:2])
            found += [self._together([genes for _, _, genes in order[place:]]) for place in range(len(order))]
        return [genes for genes in found if sum(map(bool, genes)) > 1]

    def _together(self, singles: Sequence[Genes]) -> Genes:
        """Return single variations taken together; of two in the same slot the one that gains more, which is later."""
        genes = [0] * len(self._sizes)
        for single in singles:
            for slot, way in enumerate(single):
                genes[slot] = way or genes[slot]
        return tuple(genes)

    def _single(self, slot: int, way: int) -> list[Genes]:
        """Return one variation by itself, or with each of the first ways of the slot that is varied with it."""
        companion = self._companions[slot]
        if companion is None:
            return [self._with((slot, way))]
        return [self._with((slot, way), (companion, beside)) for beside in range(1, _BESIDE + 1)]

    def _not_refused(self, slot: int, size: int, refused: Collection[Genes]) -> list[int]:
        """Return the ways of a slot less those that stopped the job by themselves; with another start all may do."""
        fixed = self._companions[slot] is None and slot not in self._companions
        return [0, *(way for way in range(1, size + 1) if not fixed or self._with((slot, way)) not in refused)]

    def _child(self, parents: Sequence[Genes], ways: Sequence[Sequence[int]]) -> Genes:
        one = list(parents[self._draw(len(parents))])
        if self._draw(_PERCENT) < _MIXED_PERCENT:
            other = parents[self._draw(len(parents))]
            return tuple(mine if self._draw(2) else theirs for mine, theirs in zip(one, other, strict=True))
        slot = self._draw(len(self._sizes))
        one[slot] = ways[slot][self._draw(len(ways[slot]))]
        return tuple(one)

    def _with(self, *ways: tuple[int, int]) -> Genes:
        chosen = dict(ways)
        return tuple(min(chosen.get(place, 0), size) for place, size in enumerate(self._sizes))

    def _draw(self, below: int) -> int:
        """Return the next number from 0, less than another; the same row for the same seed on every machine."""
        self._count += 1
        digest = hashlib.sha256(self._seed + self._count.to_bytes(8, "big")).digest()
        return int.from_bytes(digest[:8], "big") % below
