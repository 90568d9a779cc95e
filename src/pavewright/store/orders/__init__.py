"""The order book in a store: lines kept beside jobs, by which they are listed, filtered, counted and told what is due.

Saved views of the list and templates to begin a job from stand with it.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.store.orders._orders import Orders, keep_line
    from pavewright.store.orders._types import (
        DueList,
        FirmMoney,
        FirmWeek,
        JobsAsked,
        JobsPage,
        JobTemplate,
        ListedJob,
        SavedView,
        Shelf,
        SortedBy,
    )
    from pavewright.store.orders._views import Views
else:
    __getattr__ = face(__name__)

__all__ = [
    "DueList",
    "FirmMoney",
    "FirmWeek",
    "JobTemplate",
    "JobsAsked",
    "JobsPage",
    "ListedJob",
    "Orders",
    "SavedView",
    "Shelf",
    "SortedBy",
    "Views",
    "keep_line",
]
