"""What is answered to somebody who may not see money, and what he may not change by not seeing it."""

from __future__ import annotations

import asyncio
import json
from typing import TYPE_CHECKING, Any

from pavewright.desk import (
    HIDDEN_WITH_MONEY,
    LONG_WITHOUT_MONEY,
    MONEY_FIELDS,
    MONEY_PARTS,
    PAPERS_WITHOUT_MONEY,
    PLAN_PARTS_WITHOUT_MONEY,
    PRICE_STAGE,
    job_without_money,
    money_in,
)
from pavewright.job.operations import apply
from pavewright.people import Right
from pavewright.store import read_back
from pavewright.web._answers import AskedWrongError
from pavewright.web._who_asks import may

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.job.operations import Operation
    from pavewright.store import Store

_HELD = "This would change what the job costs, which you do not see: ask the office."
_PAPER_HELD = "This is made by somebody who sees money: ask the office for it."


def hides_money() -> bool:
    """Return whether who asks may not see money."""
    return not may(Right.SEE_MONEY)


def shown_document(document: str) -> str:
    """Return a kept document as it may be seen; one that cannot be read is not seen without leave to see money."""
    if not hides_money():
        return document
    return json.dumps(job_without_money(read_back(document).document or {}), ensure_ascii=False)


def shown_plan(answered: bytes) -> bytes:
    """Return an answer with a plan, or with parts of one, as it may be seen."""
    if not hides_money():
        return answered
    told = json.loads(answered)
    plan = told.get("plan")
    if isinstance(plan, dict):
        told["plan"] = {name: each for name, each in plan.items() if name in PLAN_PARTS_WITHOUT_MONEY}
        if isinstance(plan.get("missing"), list):
            told["plan"]["missing"] = [each for each in plan["missing"] if each.get("stage") != PRICE_STAGE]
    return json.dumps(told, ensure_ascii=False).encode()


def shown_clashes(clashes: list[dict[str, Any]]) -> list[dict[str, Any]]:
    """Return the clashes of a job that somebody may settle: those about money are for who sees it."""
    return clashes if not hides_money() else [each for each in clashes if not _is_about_money(each)]


def _is_about_money(clash: dict[str, Any]) -> bool:
    """Return whether a clash is about an amount, or about a part or a field that holds some."""
    operation = clash.get("operation")
    at = operation.get("at") if isinstance(operation, dict) else None
    named = {step for step in at or () if isinstance(step, str)}
    return bool(money_in(clash)) or bool(named & (MONEY_FIELDS | MONEY_PARTS | {"rates"}))


async def keep_money(store: Store, job_id: str, operations: Sequence[Operation]) -> None:
    """Look that operations of somebody who sees no money leave the money of a job as it is.

    Raises:
        AskedWrongError: they would change it.
    """
    await asyncio.to_thread(look_at_money, store, job_id, operations)


def look_at_money(store: Store, job_id: str, operations: Sequence[Operation]) -> None:
    """Look the same, in the thread that keeps them.

    Raises:
        AskedWrongError: they would change it.
    """
    if not hides_money():
        return
    # whether a guess of an amount is right is nobody's to learn: what names one is refused before it is compared
    document = read_back(store.job(job_id).document).document or {}
    if any(_names_money(each) for each in operations) or money_in(apply(document, operations).document) != money_in(
        document
    ):
        raise AskedWrongError(403, _HELD)


def _names_money(operation: Operation) -> bool:
    """Return whether an operation is at an amount or at a part that is about money, or brings an amount along."""
    at = [step for step in operation["at"] if isinstance(step, str)]
    of_rates = set(at[1:2]) & set(HIDDEN_WITH_MONEY["rates"]) if at[:1] == ["rates"] else set()
    return bool(set(at) & MONEY_FIELDS or set(at[:1]) & MONEY_PARTS or of_rates or money_in({"operation": operation}))


def refuse_money(verb: str, paper: str | None) -> None:
    """Look that long work brings no money to somebody who may not see it.

    Raises:
        AskedWrongError: it would.
    """
    if hides_money() and (verb not in LONG_WITHOUT_MONEY or (paper is not None and paper not in PAPERS_WITHOUT_MONEY)):
        raise AskedWrongError(403, _PAPER_HELD)
