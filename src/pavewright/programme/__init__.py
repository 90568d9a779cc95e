"""Programme: tasks with dates, and the waits that concrete and mortar need.

One crew does one thing at a time. Waits run on through nights and days off; work keeps to the working day. Work that
rain stops gets time added. It says when the paving may be walked and driven on.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.programme._cure_clock import BayCure, CureTime, RegimeTime
    from pavewright.programme._deliveries import brought_on, comes_on
    from pavewright.programme._diary import Stretch, stretches
    from pavewright.programme._drop_place import drop_place
    from pavewright.programme._finish_chance import DateChance, FinishChance
    from pavewright.programme._gangs import skill_for
    from pavewright.programme._gates import Gate, GateLimits, gate_limits
    from pavewright.programme._hire import hires_as_entered
    from pavewright.programme._keys import StepKey, WaitKey, WaitKind
    from pavewright.programme._month_table import month_table
    from pavewright.programme._order_lists import order_lists, usual_supplier
    from pavewright.programme._order_types import Drop, DropPlace, ListedLine, OrderList
    from pavewright.programme._schedule import schedule
    from pavewright.programme._season import shut_months
    from pavewright.programme._sums import SUMS
    from pavewright.programme._supply_types import Delivery, DeliveryLine, LoadDay, LoadKind
    from pavewright.programme._types import (
        Programme,
        Task,
    )
    from pavewright.programme._uncounted import Uncounted
    from pavewright.programme._waits import cure_times
    from pavewright.programme._weather_day import WeatherDay
else:
    __getattr__ = face(__name__)

__all__ = [
    "SUMS",
    "BayCure",
    "CureTime",
    "DateChance",
    "Delivery",
    "DeliveryLine",
    "Drop",
    "DropPlace",
    "FinishChance",
    "Gate",
    "GateLimits",
    "ListedLine",
    "LoadDay",
    "LoadKind",
    "OrderList",
    "Programme",
    "RegimeTime",
    "StepKey",
    "Stretch",
    "Task",
    "Uncounted",
    "WaitKey",
    "WaitKind",
    "WeatherDay",
    "brought_on",
    "comes_on",
    "cure_times",
    "drop_place",
    "gate_limits",
    "hires_as_entered",
    "month_table",
    "order_lists",
    "schedule",
    "shut_months",
    "skill_for",
    "stretches",
    "usual_supplier",
]
