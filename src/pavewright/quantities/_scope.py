"""What the job consists of, thing by thing: what is priced is on this list, and what is on it is priced or a gap."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright.quantities._key_shapes import NumberedKey

if TYPE_CHECKING:
    from pavewright.quantities._keys import ItemKey


class ScopeKind(StrEnum):
    """Kind of a thing that is done, in the order in which a customer reads of it."""

    PAVING = "paving"
    KERB = "kerb"
    EDGING = "edging"
    HAUNCH = "haunch"
    LOW_WALL = "low_wall"
    GUARD = "guard"
    STEPS = "steps"
    CHANNEL = "channel"
    GULLY = "gully"
    COVER = "cover"
    SOAKAWAY = "soakaway"
    DIG = "dig"
    TOPSOIL = "topsoil"
    CARRYING = "carrying"


class ScopeKey(NumberedKey[ScopeKind]):
    """Key of a thing that is done.

    Its number is the place in the job of its area, flight, channel, gully, cover or outfall, from 0; 0 for the dig.

    >>> ScopeKey(ScopeKind.KERB, 1).text
    'kerb.2'
    """

    __slots__ = ()


def in_reading_order(keys: frozenset[ScopeKey]) -> tuple[ScopeKey, ...]:
    """Return keys by kind, then by their place in the job."""
    order = {kind: place for place, kind in enumerate(ScopeKind)}
    return tuple(sorted(keys, key=lambda key: (order[key.kind], key.number)))


class GapReason(StrEnum):
    """Why something is not in the price."""

    NO_PRICE = "no_price"
    NOT_MEASURED = "not_measured"
    NOT_KNOWN = "not_known"


@dataclass(frozen=True, slots=True)
class Gap:
    """Something that the job takes and that is not in the price.

    Attributes:
        scope: What it is for.
        reason: Why it is not in the price.
        words: What it is, and how much where that is known.
        item: The item without a price; None where it is not measured.
        ours: Whether it is what the contractor uses up himself, of which no customer reads.
    """

    scope: tuple[ScopeKey, ...]
    reason: GapReason
    words: str
    item: ItemKey | None = None
    ours: bool = False
