"""Cost: the work in hours, what is bought and hired, and the price.

Labour is amount times output, with the output's source and its range. Money is whole minor units throughout. The
margin is a part of the price before tax. What moves the price most is shown, and what has no price is listed, not
guessed.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.cost._hire_lines import HirePeriod, hire_period
    from pavewright.cost._hour_price import HourPrice, any_hour_price, hour_price
    from pavewright.cost._hours import crew_hours
    from pavewright.cost._keys import ChargeKey, ChargeKind, HireKey, LineGroup, LineKey, TaskKey, TaskKind
    from pavewright.cost._labour import labour
    from pavewright.cost._money import exact, shared_out, to_minor
    from pavewright.cost._orders import carried, orders, terms_of
    from pavewright.cost._parts import Order, OrderDelivery, OrderLine, RangeKind, StaleBy, Taxed, TaxShare
    from pavewright.cost._price import price
    from pavewright.cost._repriced import LineChange, LineChangeKind, PriceStep, Repriced, StepChange, repriced
    from pavewright.cost._sums_cost import SUMS
    from pavewright.cost._tax import tax_on
    from pavewright.cost._tax_added import added_shares
    from pavewright.cost._types import (
        AssumedShare,
        Cost,
        CostLine,
        Hire,
        LabourTask,
        MeasuredWork,
        PrimeCostSum,
        ProvisionalSum,
        ScopeLine,
        SettlingRate,
        WorkLayer,
    )
else:
    __getattr__ = face(__name__)

__all__ = [
    "SUMS",
    "AssumedShare",
    "ChargeKey",
    "ChargeKind",
    "Cost",
    "CostLine",
    "Hire",
    "HireKey",
    "HirePeriod",
    "HourPrice",
    "LabourTask",
    "LineChange",
    "LineChangeKind",
    "LineGroup",
    "LineKey",
    "MeasuredWork",
    "Order",
    "OrderDelivery",
    "OrderLine",
    "PriceStep",
    "PrimeCostSum",
    "ProvisionalSum",
    "RangeKind",
    "Repriced",
    "ScopeLine",
    "SettlingRate",
    "StaleBy",
    "StepChange",
    "TaskKey",
    "TaskKind",
    "TaxShare",
    "Taxed",
    "WorkLayer",
    "added_shares",
    "any_hour_price",
    "carried",
    "crew_hours",
    "exact",
    "hire_period",
    "hour_price",
    "labour",
    "orders",
    "price",
    "repriced",
    "shared_out",
    "tax_on",
    "terms_of",
    "to_minor",
]
