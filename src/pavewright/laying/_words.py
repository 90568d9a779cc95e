"""How the pieces of an area are named in what is said of them."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

_NAMED = 5
"""Pieces named in a finding; the laying plan shows the rest."""


def first_few(numbers: Sequence[int]) -> str:
    """Name the first few pieces."""
    return ", ".join(str(number) for number in numbers[:_NAMED])


def pieces_of(area: str, numbers: Sequence[int]) -> str:
    """Name the place of a finding: the first few of its pieces, and how many more there are."""
    more = f" and {len(numbers) - _NAMED} more" if len(numbers) > _NAMED else ""
    return f"area {area}, pieces {first_few(numbers)}{more}"
