"""What an engine may be asked: pure verbs, from bytes to bytes, by name; a second argument is what pieces share.

A verb reads no store, no file but those of the program, no clock and no chance but a seed of its payload: so its answer
is the same on every machine that runs the same program. What a job is refused for is part of its answer; an error that
a verb raises is a fault of the program.
"""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from pavewright.desk._better import proposal_planned
from pavewright.desk._many import whole_plan
from pavewright.desk._replan_side import planned_side
from pavewright.desk._spread import risk_part, storm_part
from pavewright.desk._verbs import make_plan_so_far
from pavewright.job import JobInvalid

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping


def summed_up(payload: bytes) -> bytes:
    """Return the price of a job so far, or why it cannot be read.

    Args:
        payload: JSON with ``document`` and ``firm``: the documents as text, the book null where there is none.
    """
    asked = json.loads(payload)
    try:
        made = make_plan_so_far(asked["document"], None, asked["firm"])
    except JobInvalid as refusal:
        return _told({"faults": [{"path": each.path, "words": each.message} for each in refusal.faults]})
    return _told({"price_minor": None if made.cost is None else made.cost.total_minor})


def _told(answer: dict[str, object]) -> bytes:
    return json.dumps(answer, sort_keys=True, ensure_ascii=False).encode()


ENGINE_VERBS: Mapping[str, Callable[..., bytes]] = {
    "planned_side": planned_side,
    "proposal": proposal_planned,
    "risk_part": risk_part,
    "storm_part": storm_part,
    "whole_plan": whole_plan,
    "summed_up": summed_up,
}
"""The verbs by their names."""
