"""The sheet of other build-ups: what each comes to, by which rule, what is not known, and which are refused."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.findings import Severity
from pavewright.job import BaseRule
from pavewright.papers._blocks import Block, SheetOfPaper, heading, paragraph, points, rest, right, small, table
from pavewright.papers._cost_words import BUILD_UPS as SAID
from pavewright.papers._words import amount, money, one, source, whole
from pavewright.pipeline import (
    base_part_words,
    base_rule_words,
    bedding_words,
    build_up_choice,
    ground_words,
    permeable_words,
)

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from pavewright.buildup import Regime, RuledLayer
    from pavewright.papers._figures import PaperFigures
    from pavewright.pipeline import Alternative, Plan
    from pavewright.rules import Rulebook

_NOT_KNOWN = "not known"


def build_up_sheets(
    plan: Plan, rules: Rulebook, figures: PaperFigures, report: Callable[[str], None]
) -> list[SheetOfPaper]:
    """Return the sheet of the build-ups that the job could have; none where there is nothing to compare."""
    found = build_up_choice(plan, rules, report)
    if not found.alternatives or found.ground is None:
        return []
    sheet = SheetOfPaper(SAID.build_ups_compared_not, measured=False)
    sheet.add(
        paragraph(f"Ground: {ground_words(found.ground)}."),
        small(SAID.each_planned_with_whole),
    )
    for area in dict.fromkeys(each.area for each in found.alternatives):
        own = [each for each in found.alternatives if each.area == area]
        out = [each for each in found.refused if each.area == area]
        sheet.add(heading(area), *_compared(own, plan.job.identity.currency, figures))
        if out:
            sheet.add(paragraph("Refused:"), points(_refused(each) for each in out))
    return [sheet]


def _compared(own: Sequence[Alternative], currency: str, figures: PaperFigures) -> list[Block]:
    """Return the build-ups of one area: a table, the rules, and what is not known of which."""
    heads = (
        right("no."),
        rest("build-up"),
        right(SAID.all_mm, "mm"),
        right("dig mm", "mm"),
        right("dig m³", "m³"),
        right("price"),
        right("days"),
        right("t", "t"),
        right("carbon kg"),
    )
    numbered = list(enumerate(own, start=1))
    blocks = [table(heads, [_row(number, each, currency) for number, each in numbered], type_size=8.0)]
    apart = [
        f"{number}: {'; '.join(gap.words for gap in each.in_one_price_only)}."
        for number, each in numbered
        if each.in_one_price_only
    ]
    if apart:
        blocks += [
            paragraph(SAID.not_be_compared_this),
            points(apart),
        ]
    if any(each.figures.total_minor is not None and each.figures.dig_m3 is None for each in own):
        blocks.append(paragraph(SAID.not_be_compared_what))
    said = [(number, _said(rule, figures)) for number, each in numbered for rule in each.regimes if rule.decides]
    beside = [_said(rule, figures) for each in own for rule in each.regimes if not rule.decides and rule.layers]
    blocks += [paragraph(SAID.rule_that_each_base), points(_by_number(said, len(own)))]
    others = [words for words in dict.fromkeys(beside) if words not in {each for _, each in said}]
    if others:
        blocks += [paragraph(SAID.other_published_rules_which), points(others)]
    unknown = _by_number(((number, known.words) for number, each in numbered for known in each.not_known), len(own))
    if unknown:
        blocks += [paragraph(SAID.what_not_known), points(unknown)]
    return blocks


def _row(number: int, each: Alternative, currency: str) -> tuple[str, ...]:
    """Return a row of the table; the planned one is marked in words."""
    found = each.figures
    kg = None if found.carbon is None else found.carbon.total
    return (
        str(number),
        f"{'✓ planned: ' if each.chosen else ''}{_name(each)}",
        _NOT_KNOWN if found.build_up_mm is None else amount(found.build_up_mm),
        _NOT_KNOWN if found.dig_mm is None else whole(found.dig_mm),
        _NOT_KNOWN if found.dig_m3 is None else one(found.dig_m3),
        _price(each, currency),
        _NOT_KNOWN if found.days is None else str(found.days),
        _NOT_KNOWN if found.mass_t is None else f"{'at least ' if each.no_mass else ''}{one(found.mass_t)}",
        _NOT_KNOWN if kg is None else f"{whole(kg.low)} to {whole(kg.high)}",
    )


def _price(each: Alternative, currency: str) -> str:
    total = each.figures.total_minor
    if total is None:
        return _NOT_KNOWN
    apart = "" if each.chosen or each.price_comparable else " *"
    return f"{'at least ' if each.gaps else ''}{money(total, currency)}{apart}"


def _name(each: Alternative) -> str:
    if each.rule is BaseRule.PERMEABLE:
        return permeable_words()
    by_rule = "" if each.rule is BaseRule.OWN else f"; {base_rule_words(each.rule)}"
    return f"{bedding_words(each.bedding)}{by_rule}"


def _said(regime: Regime, figures: PaperFigures) -> str:
    """Say what a rule takes, each layer with its source."""
    layers = "; ".join(
        f"{base_part_words(layer.part)} {amount(layer.thickness_mm)} mm ({_from(layer, figures)})"
        for layer in regime.layers or ()
    )
    return f"{base_rule_words(regime.rule)}: {layers}."


def _from(layer: RuledLayer, figures: PaperFigures) -> str:
    """Say where the thickness of a layer comes from; a design of the job has no source that was looked at here."""
    if layer.is_for_storage:
        return SAID.entered_this_job_rain
    if not layer.decided_by:
        return SAID.entered_this_job_not
    return source(layer.decided_by[0], figures)


def _refused(each: Alternative) -> str:
    """Say what is refused, and why."""
    stops = [finding.message for finding in each.findings if finding.severity is Severity.STOP]
    why = [*(fault.message for fault in each.faults), *stops]
    return f"{_name(each)}: {' '.join(why or ['It is not planned as far as the job is.'])}"


def _by_number(said: Iterable[tuple[int, str]], count: int) -> list[str]:
    """Return what is said of several build-ups once, with the numbers of those that it is said of.

    Args:
        said: Number and words.
        count: How many build-ups there are.
    """
    found: dict[str, list[int]] = {}
    for number, words in said:
        numbers = found.setdefault(words, [])
        if number not in numbers:
            numbers.append(number)
    return [
        f"{'all' if len(numbers) == count > 1 else ', '.join(map(str, numbers))}: {words}"
        for words, numbers in found.items()
    ]
