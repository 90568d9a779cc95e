"""Build-ups that a job could have, as the screens and the command line show them."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from pavewright import rulebook
from pavewright.desk._plain import plain
from pavewright.job import BaseRule
from pavewright.pipeline import (
    base_part_words,
    base_rule_words,
    build_up_choice,
    build_up_name,
    ground_words,
    no_factor_words,
    weak_factor,
)

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.buildup import Regime
    from pavewright.findings import Finding
    from pavewright.pipeline import Alternative, Carbon, CarbonGap, CarbonRange, PlanSoFar
    from pavewright.rules import Rulebook


def build_ups_told(made: PlanSoFar, report: Callable[[str], None] | None = None) -> dict[str, Any]:
    """Return the build-ups that a job could have, each planned, or what has to be known first."""
    rules = rulebook.load(made.edition)
    found = build_up_choice(made, rules, report)
    first = [*(each.message for each in found.faults), *(each.words for each in found.missing)]
    return {
        "ground": None if found.ground is None else {**plain(found.ground), "words": ground_words(found.ground)},
        "alternatives": [_told(each, rules) for each in found.alternatives],
        "refused": [_told(each, rules) for each in found.refused],
        "why_not": first,
    }


def _told(found: Alternative, rules: Rulebook) -> dict[str, Any]:
    figures, carbon = found.figures, found.figures.carbon
    kind = "permeable" if found.bedding is None else found.bedding.value
    deciding = next((each for each in found.regimes if each.decides), None)
    return {
        "key": f"{found.number}.{kind}" + ("" if found.rule is BaseRule.OWN else f".{found.rule.value}"),
        "area": found.area,
        "bedding": None if found.bedding is None else found.bedding.value,
        "base_rule": found.rule.value,
        "name": build_up_name(found),
        "chosen": found.chosen,
        "changes": plain(found.changes),
        "build_up_mm": figures.build_up_mm,
        "dig_mm": figures.dig_mm,
        "dig_m3": figures.dig_m3,
        "fill_m3": figures.fill_m3,
        "total_minor": figures.total_minor,
        "at_least": bool(found.gaps),
        "gaps": [each.words for each in found.gaps],
        "price_comparable": found.price_comparable,
        "in_one_price_only": [each.words for each in found.in_one_price_only],
        "mass_t": figures.mass_t,
        "no_mass": [description for _, description in found.no_mass],
        "days": figures.days,
        **_carbon(carbon),
        "rule": None if deciding is None else " ".join(_cited(deciding, rules)),
        "regimes": [_regime(each, rules) for each in found.regimes],
        "house_mm": found.house_mm,
        "findings": [_finding(each) for each in found.findings],
        "stays": [_finding(each) for each in found.stays],
        "ends": [_finding(each) for each in found.ends],
        "faults": [each.message for each in found.faults],
        "not_known": plain(found.not_known),
    }


def _finding(each: Finding) -> dict[str, Any]:
    return {"code": each.code, "severity": each.severity.value, "place": each.place, "message": each.message}


def _carbon(carbon: Carbon | None) -> dict[str, Any]:
    if carbon is None:
        return {"carbon_kg": None, "weak": [], "no_factor": []}
    return {
        "carbon_kg": _ends(carbon.total),
        "weak": [weak_factor(each) for each in carbon.lines if each.weak],
        "no_factor": [_gap(each) for each in carbon.gaps],
    }


def _ends(carbon: CarbonRange | None) -> list[float] | None:
    return None if carbon is None else [carbon.low, carbon.likely, carbon.high]


def _gap(gap: CarbonGap) -> dict[str, Any]:
    return {
        "key": gap.key.text,
        "description": gap.description,
        "words": no_factor_words(gap.reason),
        "if_made_of": [{"name": made_of.value, "kg": _ends(carbon)} for made_of, carbon in gap.if_made_of],
    }


def _regime(regime: Regime, rules: Rulebook) -> dict[str, Any]:
    layers = regime.layers
    main = next((figure for layer in layers or () for figure in layer.decided_by), None)
    return {
        "rule": None if regime.rule is None else regime.rule.value,
        "name": base_rule_words(regime.rule),
        "source": None if main is None else rules.sources[main.source].title,
        "status": None if main is None else main.status.value,
        "layers_mm": None
        if layers is None
        else [{"name": base_part_words(each.part), "thickness_mm": each.thickness_mm} for each in layers],
        "decides": regime.decides,
        "words": "It says nothing of this use or this ground." if layers is None else " ".join(_cited(regime, rules)),
    }


def _cited(regime: Regime, rules: Rulebook) -> list[str]:
    """Say each layer with the source that it comes from, and how far to trust it; a design of the job has none."""
    said = []
    for layer in regime.layers or ():
        size = f"{base_part_words(layer.part)} {layer.thickness_mm:g} mm"
        size = f"{size[0].upper()}{size[1:]}"
        if layer.is_for_storage:
            said.append(f"{size}: as entered in this job for the rain that it stores; less would bear.")
            continue
        if not layer.decided_by:
            said.append(f"{size}: entered in this job, not checked here.")
            continue
        figure = layer.decided_by[0]
        title = "" if figure.is_practice_alone else rules.sources[figure.source].title
        where = ", ".join(each for each in (title, figure.place) if each)
        said.append(f"{size}: {'; '.join(filter(None, (where, figure.status.words)))}.")
    return said
