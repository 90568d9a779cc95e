"""What the customer sees on a screen: the very sheets of the customer pack, so that nothing of cost can slip in."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from pavewright.papers._sheets_money import customer_sheets

if TYPE_CHECKING:
    from pavewright.pipeline import Plan
    from pavewright.rules import Rulebook


def customer_view(plan: Plan, rules: Rulebook) -> dict[str, Any]:
    """Return the sheets of the customer pack as plain data: titles, and blocks of words, facts and drawings."""
    who = plan.job.identity
    return {
        "title": who.title,
        "contractor": who.contractor,
        "client": who.client,
        "address": who.address,
        "date": who.date.isoformat(),
        "revision": who.revision,
        "sheets": [{"title": sheet.title, "blocks": sheet.blocks} for sheet in customer_sheets(plan, rules)],
    }
