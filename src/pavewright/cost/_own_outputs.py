"""Outputs of the firm's own book in place of the rulebook's."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from pavewright.job import OutputKind
from pavewright.rules import Status

if TYPE_CHECKING:
    from collections.abc import Iterable

    from pavewright.cost._figures import CostFigures
    from pavewright.job import OwnOutput
    from pavewright.rules import Figure

_P90 = 1.2816
"""So many standard deviations lie between the mean and the value that one in ten is above, of a normal. [-]"""
_SHORTEST = 0.05
"""No job goes quicker than this part of its likely hours. [-]"""
OWN_BOOK = "own_book"
"""Source of what comes from the firm's own book."""


def with_own(figures: CostFigures, outputs: Iterable[OwnOutput]) -> CostFigures:
    """Return the figures with own outputs in place of the rulebook's, each named as the own book's.

    An output of blocks in a pattern holds for that pattern, and one without a pattern for all that have none of their
    own in the book; a pattern for which only the rulebook has an output keeps that one.
    """
    lay_own = dict(figures.lay_own)
    changed: dict[str, Any] = {"lay_own": lay_own}
    for own in outputs:
        if own.kind is OutputKind.LAY_BLOCKS and own.pattern is not None:
            lay_own[own.pattern] = own_figure(lay_own.get(own.pattern, figures.lay_blocks_h_per_m2), own)
        else:
            changed[own.kind.value] = own_figure(getattr(figures, own.kind.value), own)
    return replace(figures, **changed)


def own_figure(figure: Figure, own: OwnOutput) -> Figure:
    """Return a figure with an own output in its place; its ends are those within which four of five jobs lie.

    Where nobody knows how own jobs scatter, the ends lie as far off as the rulebook's, as parts of the output.
    """
    if own.sd_hours is None:
        each = own.hours_each / figure.value
        low = None if figure.low is None else figure.low * each
        high = None if figure.high is None else figure.high * each
    else:
        off = _P90 * own.sd_hours
        low, high = max(own.hours_each - off, _SHORTEST * own.hours_each), own.hours_each + off
    jobs = "" if own.jobs is None else f"{own.jobs} job{'s' if own.jobs != 1 else ''}"
    return replace(figure, value=own.hours_each, low=low, high=high, source=OWN_BOOK, place=jobs, status=Status.OWN)
