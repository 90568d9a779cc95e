"""What is assumed, in words: a sentence for each fact, and a short list for the foot of every sheet."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.job import Soil
from pavewright.survey._types_known import AssumedWhat

if TYPE_CHECKING:
    from collections.abc import Iterable

    from pavewright.survey._types_known import AssumedFact

_WHAT = {
    AssumedWhat.DPC: "damp-proof course of {place}",
    AssumedWhat.THRESHOLD: "threshold of {place}",
    AssumedWhat.AIR_BRICK: "underside of {place}",
    AssumedWhat.COVER: "level of {place}",
    AssumedWhat.EDGE: "level of {place}",
    AssumedWhat.GULLY: "level of {place}",
    AssumedWhat.CHANNEL: "invert of {place}",
    AssumedWhat.OUTFALL_LEVEL: "invert of {place}",
    AssumedWhat.OUTFALL_TAKES_WATER: "that {place} takes water",
    AssumedWhat.BOUNDARY: "top of {place}",
    AssumedWhat.POINT: "level of {place}",
    AssumedWhat.PLACE: "place of {place}",
    AssumedWhat.SOIL: "soil",
    AssumedWhat.TOPSOIL: "depth of topsoil",
}
_SOILS = {soil: soil.value.replace("_", " ") for soil in Soil} | {Soil.UNKNOWN: "natural soil that counts as soft"}
_LISTED = 4
"""So many facts stand by name in a short list."""


def assumed_name(fact: AssumedFact) -> str:
    """Return what a fact is about, in a few words."""
    return _WHAT[fact.what].format(place=fact.place)


def assumed_names(facts: Iterable[AssumedFact]) -> str:
    """Return what is assumed as a short list for the foot of a sheet; empty where nothing is."""
    facts = tuple(facts)
    by_eye = sorted({fact.place for fact in facts if fact.what is AssumedWhat.PLACE})
    names = list(dict.fromkeys(assumed_name(fact) for fact in facts if fact.what is not AssumedWhat.PLACE))
    if by_eye:
        names.append(f"place of {by_eye[0]}" if len(by_eye) == 1 else f"places of {len(by_eye)} points")
    more = len(names) - _LISTED
    if more > 1:
        names = [*names[:_LISTED], f"{more} more"]
    return ", ".join(names)


def assumed_sentence(fact: AssumedFact) -> str:
    """Return a fact as a sentence: what is taken, by whom and from what."""
    if fact.what is AssumedWhat.PLACE:
        return f"Assumed by eye: {assumed_name(fact)}, not taped; if it is otherwise the price changes."
    value = _value(fact)
    by = f" by {fact.by}" if fact.by else ""
    why = f" ({fact.why.strip().rstrip('.')})" if fact.why.strip() else ""
    taken = f" is taken as {value}" if value else ""
    return f"Assumed{by}{why}: {assumed_name(fact)}{taken}, not measured; if it is otherwise the price changes."


def _value(fact: AssumedFact) -> str:
    if fact.what is AssumedWhat.SOIL:
        return _SOILS[Soil(str(fact.value))]
    if not isinstance(fact.value, float):
        return ""
    if fact.what is AssumedWhat.TOPSOIL:
        return f"{units.grouped(fact.value)} mm"
    return f"{units.level_text(fact.value)} m"
