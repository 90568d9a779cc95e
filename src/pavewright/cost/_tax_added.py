"""What one price adds to another, by the way in which it is taxed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.cost._parts import TaxShare

if TYPE_CHECKING:
    from pavewright.cost._types import Cost


def added_shares(old: Cost, new: Cost) -> tuple[TaxShare, ...]:
    """Return what a price adds to another before tax and in tax, less than zero where it saves; what stays is left out.

    Args:
        old: The price before.
        new: The price after.
    """
    before, after = ({share.taxed: share for share in cost.tax} for cost in (old, new))
    found = []
    for way in dict.fromkeys((*before, *after)):
        one, other = before.get(way), after.get(way)
        net = (other.net_minor if other else 0) - (one.net_minor if one else 0)
        tax = (other.tax_minor if other else 0) - (one.tax_minor if one else 0)
        if net or tax:
            found.append(TaxShare(way, net, tax))
    return tuple(found)
