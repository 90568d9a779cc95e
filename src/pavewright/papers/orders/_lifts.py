"""The lift plan: what each thing weighs, and by whom or by what it is lifted."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.method import LiftWay
from pavewright.papers._words import amount, one, source
from pavewright.papers.look import decimal, paragraph, points, rest, right, small, table
from pavewright.papers.orders._words import WAYS, WORDS

if TYPE_CHECKING:
    from pavewright.method import LiftPlan
    from pavewright.papers._figures import PaperFigures
    from pavewright.papers.look import Block
    from pavewright.pipeline import Plan
    from pavewright.rules import Figure


def lift_blocks(plan: Plan, lifts: LiftPlan, carry: Figure, figures: PaperFigures) -> list[Block]:
    """Return what is lifted with its weight and how, then what nobody weighed.

    Args:
        plan: The plan.
        lifts: What is lifted.
        carry: How far a load of the guideline weight is carried.
        figures: Where figures come from.
    """
    known = [each for each in lifts.things if each.kg is not None]
    rows = [
        (
            each.description,
            each.each,
            one(each.kg or 0.0),
            "" if each.count is None else amount(each.count),
            WAYS[each.way],
        )
        for each in known
    ]
    found: list[Block] = [paragraph(WORDS.lift_lead)]
    if rows:
        heads = (rest(WORDS.what), rest(WORDS.one_of_it), decimal("kg"), right(WORDS.number), WORDS.lift)
        found.append(table(heads, rows, type_size=8.5))
    share = lifts.two_kg.figures[-1]
    found.append(
        small(
            WORDS.guideline(
                one=f"{lifts.one_kg.value:g}",
                one_source=source(lifts.one_kg, figures),
                two=one(lifts.two_kg.result),
                two_source=f"{lifts.two_kg.expression} by {source(share, figures)}",
            )
        )
    )
    found.append(points(_said(plan, lifts, carry, figures)))
    return found


def _said(plan: Plan, lifts: LiftPlan, carry: Figure, figures: PaperFigures) -> list[str]:
    unknown = [each.description for each in lifts.things if each.way is LiftWay.NOT_KNOWN]
    run = plan.job.site.carry_mm
    said = [WORDS.not_weighed(items="; ".join(unknown))] if unknown else []
    if run is None:
        said.append(WORDS.carry_ask)
    elif units.mm_to_m(run) > carry.value:
        length = one(units.mm_to_m(run))
        said.append(WORDS.carry(length=length, limit=f"{carry.value:g}", source=source(carry, figures)))
    covers = len(plan.job.site.covers)
    return [*said, *([WORDS.covers(count=str(covers))] if covers else []), WORDS.local]
