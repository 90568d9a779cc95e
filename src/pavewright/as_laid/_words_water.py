"""Sentences on water as laid, and on what a verdict rests on."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.as_laid._codes import Code
from pavewright.as_laid._types_judged import Ground
from pavewright.as_laid._verdicts import Verdict
from pavewright.as_laid._words import FINDINGS
from pavewright.as_laid.standing import percent
from pavewright.findings import worded
from pavewright.writing import Catalogue, Sentence

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.as_laid._types_judged import HoseAsLaid, Reason
    from pavewright.as_laid.standing import AreaStanding, DrainFound
    from pavewright.findings import Option


class _Parts(Catalogue):
    high: str = "the grating stands above the paving, so water runs past it"
    low: str = "a step down that a foot or wheel finds"
    above: Sentence = Sentence("{amount} above")
    below: Sentence = Sentence("{amount} below")
    dry: str = " A hose test of the whole area was dry: read the levels there again."
    wet: str = " A hose test of the whole area decides it."
    named: Sentence = Sentence("{what}: {names}")
    open: Sentence = Sentence("{what}, not decided")


_PARTS = _Parts()
GROUNDS: Mapping[Ground, str] = {
    Ground.LEVEL: "level off the plan",
    Ground.CLEARANCE: "too near the damp-proof course",
    Ground.CLEARANCE_UNKNOWN: "damp-proof course not read",
    Ground.FALL: "falls the wrong way",
    Ground.BAY: "bay built off its design",
    Ground.BAY_UNKNOWN: "bay not known",
    Ground.EDGE: "gap under a rolled edge",
    Ground.GAP: "gap under a straight edge",
    Ground.LIP: "step between units",
    Ground.JOINT: "joint",
    Ground.HOSE: "hose test",
    Ground.GRATING: "grating",
    Ground.STANDING: "pond that may stand",
    Ground.STANDING_UNKNOWN: "standing water not known",
    Ground.UNREAD: "no levels read",
    Ground.PLACE_UNREAD: "listed and not read",
    Ground.CLEARANCE_UNREAD: "nobody read near wall",
}
"""What a verdict rests on, in words."""
_UNKNOWN = frozenset(
    {
        Ground.CLEARANCE_UNKNOWN,
        Ground.BAY_UNKNOWN,
        Ground.STANDING_UNKNOWN,
        Ground.UNREAD,
        Ground.PLACE_UNREAD,
        Ground.CLEARANCE_UNREAD,
    }
)
"""Grounds whose words say themselves that it is open."""
_NAMED_MOST = 6
"""More names than this are counted."""


def reason_in_words(reason: Reason) -> str:
    """Say why paving does not pass."""
    what = GROUNDS[reason.ground]
    if reason.verdict is Verdict.INCONCLUSIVE and reason.ground not in _UNKNOWN:
        what = _PARTS.open(what=what)
    if not reason.names:
        return what
    more = len(reason.names) - _NAMED_MOST
    names = ", ".join(reason.names[:_NAMED_MOST]) + (f" … (+{more})" if more > 0 else "")
    return _PARTS.named(what=what, names=names)


def hose_failed(test: HoseAsLaid) -> tuple[str, tuple[Option, ...]]:
    """Say that water stood in a hose test."""
    words = FINDINGS[Code.HOSE_FAILED](
        name=test.name,
        area=test.area,
        deep=units.millimetres_text(test.deepest_mm),
        marks=", ".join(test.marks),
        minutes=f"{test.after_min:g}",
    )
    return words, worded(
        ("Lift and relay where it stands, then wet the whole area again.", "Agree in writing to leave it.")
    )


def grating(read: DrainFound, *, is_high: bool) -> tuple[str, tuple[Option, ...]]:
    """Say that a grating does not sit as it should.

    Args:
        read: The mark.
        is_high: Whether the grating stands too high, else too low.
    """
    amount = units.millimetres_text(abs(read.above_mm))
    words = FINDINGS[Code.GRATING](
        mark=read.mark,
        drain=read.drain,
        stands=_PARTS.above(amount=amount) if read.above_mm >= 0.0 else _PARTS.below(amount=amount),
        low=f"{read.min_mm:g}",
        high=f"{read.max_mm:g}",
        why=_PARTS.high if is_high else _PARTS.low,
    )
    return words, worded(("Set the grating or relay the paving beside it, then read it again in place of this mark.",))


def stands(area: AreaStanding, *, is_dry_by_hose: bool) -> tuple[str, tuple[Option, ...]]:
    """Say that water is likely to stand.

    Args:
        area: What stands on an area.
        is_dry_by_hose: Whether a hose test of the whole of it was dry.
    """
    words = FINDINGS[Code.STANDS](
        area=area.area,
        chance=percent(area.chance),
        depth=f"{area.counted_mm:g}",
        hose=_PARTS.dry if is_dry_by_hose else _PARTS.wet,
    )
    return words, worded(
        ("Read the levels there again.", "Wet the whole area and look.", "Lift and relay where it stands.")
    )
