"""Handing over: what is written down on the day when the paving becomes the customer's.

When it was complete and handed over, which batches were laid where, what lies buried and was measured before it was
covered, where the keys of covers hang, what is left over, and how long the firm stands by it. What is left out is not
known: the papers leave a line for it, never a number.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.job.handover._record import (
        BuriedKind,
        BuriedReading,
        CoverKeys,
        DeliveredBatch,
        HandedOver,
        SpareUnits,
    )
    from pavewright.job.handover._warranty import warranty_until
else:
    __getattr__ = face(__name__)

__all__ = [
    "BuriedKind",
    "BuriedReading",
    "CoverKeys",
    "DeliveredBatch",
    "HandedOver",
    "SpareUnits",
    "warranty_until",
]
