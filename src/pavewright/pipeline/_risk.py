"""The risk of a price: the job is drawn many times, everything that nobody knows with it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.pipeline._risk_study import USUAL_DRAWS, risk_study

if TYPE_CHECKING:
    from collections.abc import Callable

    from pavewright.pipeline._risk_types import Risk
    from pavewright.pipeline._types import Plan, PlanSoFar
    from pavewright.rules import Rulebook


def risk(
    made: Plan | PlanSoFar,
    rules: Rulebook,
    report: Callable[[str], None] | None = None,
    draws: int = USUAL_DRAWS,
    seed: int = 1,
    *,
    facts: bool = True,
) -> Risk | None:
    """Return the risk of the price of a plan; None where it has no price.

    Same job, same rulebook, same seed: the same risk. Levels of dig and layers, bulking, breakages, outputs, yields,
    topsoil and assumed facts are drawn together; packs and loads are rounded in every draw.

    Args:
        made: The plan.
        rules: Its rulebook.
        report: Takes what is being done; may raise to stop the work.
        draws: Draws in each replicate, a power of two. [-]
        seed: Seed of the first replicate. [-]
        facts: Whether the job is planned again with single facts changed.
    """
    tell = report or (lambda _: None)
    study = risk_study(made, rules, draws, seed, facts=facts)
    if study is None:
        return None
    tell("what the levels do")
    answers = {}
    for part in study.parts:
        tell(part)
        answers[part] = study.answer(part)
    return study.whole(answers)
