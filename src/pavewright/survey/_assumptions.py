"""What could not be seen or is not known, as statements for the quotation."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.job import AnswerKind, OutfallKind, ServiceKind, Soil
from pavewright.survey._assumed_words import assumed_sentence
from pavewright.survey._types_known import AssumedWhat

if TYPE_CHECKING:
    from pavewright.job import Site
    from pavewright.survey._types_known import AssumedFact

_OTHERWISE = "if it is otherwise the price changes"
_OUTFALLS = {
    OutfallKind.BORDER: "a border",
    OutfallKind.LAWN: "the lawn",
    OutfallKind.SOAKAWAY: "a soakaway",
    OutfallKind.WATERCOURSE: "a watercourse",
    OutfallKind.SURFACE_WATER_SEWER: "the surface-water sewer",
    OutfallKind.COMBINED_SEWER: "the combined sewer",
}


def assumptions(site: Site, facts: tuple[AssumedFact, ...]) -> tuple[str, ...]:
    """Return one sentence for everything about the site that nobody has seen.

    Covers what somebody assumes, the walk round the house, outfalls that nobody saw running, soil, depths of services
    and protection of trees.
    """
    reported = [assumed_sentence(fact) for fact in facts if fact.what is not AssumedWhat.OUTFALL_TAKES_WATER]
    reported += [
        f"Assumed: {_question(answer.question, answer.value)} This could not be seen on the visit; {_OTHERWISE}."
        for answer in site.walk_round
        if answer.answer is AnswerKind.COULD_NOT_SEE
    ]
    reported += [
        f"Assumed: {outfall.name} takes rainwater freely. Where it leads is not known; {_OTHERWISE}."
        if outfall.kind is OutfallKind.UNKNOWN
        else f"Assumed: {outfall.name} takes rainwater freely to {_OUTFALLS[outfall.kind]}. Nobody has seen water run "
        f"there; {_OTHERWISE}."
        for outfall in site.outfalls
        if not outfall.confirmed or outfall.kind is OutfallKind.UNKNOWN
    ]
    if site.ground.soil is Soil.UNKNOWN and site.ground.assumed is None:
        reported.append(
            f"Assumed: the ground is natural soil, neither filled nor boggy, and counts as soft. "
            f"No trial hole was dug; {_OTHERWISE}."
        )
    reported += [
        f"Assumed: {service.name} ({_KINDS[service.kind]}) lies below the dig. Its depth was not found; {_OTHERWISE}."
        for service in site.services
        if service.depth_mm is None
    ]
    reported += [
        f"Assumed: {tree.name} is under no preservation order and in no conservation area. Nobody has asked yet; "
        f"{_OTHERWISE}."
        for tree in site.trees
        if tree.protected is None
    ]
    return tuple(reported)


_KINDS = {
    ServiceKind.ELECTRICITY: "electric cable",
    ServiceKind.GAS: "gas pipe",
    ServiceKind.WATER: "water pipe",
    ServiceKind.DRAIN: "drain",
    ServiceKind.TELECOM: "telecom cable",
    ServiceKind.OIL: "oil pipe",
    ServiceKind.UNKNOWN: "service of unknown kind",
}


def _question(question: str, taken: str) -> str:
    """Return what was asked and what the price takes for it, as the start of a sentence."""
    asked = question.strip()
    asked = asked if asked.endswith(("?", ".", ":")) else f"{asked}:"
    return (
        f"{asked} {taken.strip().rstrip('.')}."
        if taken.strip()
        else f"{asked} It is taken that nothing there stands in the way of the work."
    )
