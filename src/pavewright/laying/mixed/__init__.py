"""Mixed sizes: a pack of several sizes laid at random on a module, every unit of it used where the bay allows.

A bay is filled cell by cell: no point where four units meet, no long straight joint, the smallest units apart, the
sizes spread evenly. What is down already stays, and what is left in the yard is what there is. Where the rules cannot
be kept, the answer names the rule that stands in the way. Every layout is checked apart from the
search before it is reported.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.laying.mixed._check import MixFault, mix_faults
    from pavewright.laying.mixed._fill import fill_bay
    from pavewright.laying.mixed._look import MixLook, mix_look
    from pavewright.laying.mixed._pack import SoldSize, mix_rules, pack_of
    from pavewright.laying.mixed._sums_mixed import SUMS
    from pavewright.laying.mixed._types import (
        MixedLayout,
        MixedRefusal,
        MixedUnit,
        MixRule,
        MixRules,
        Pack,
        PackSize,
        Spread,
    )
else:
    __getattr__ = face(__name__)

__all__ = [
    "SUMS",
    "MixFault",
    "MixLook",
    "MixRule",
    "MixRules",
    "MixedLayout",
    "MixedRefusal",
    "MixedUnit",
    "Pack",
    "PackSize",
    "SoldSize",
    "Spread",
    "fill_bay",
    "mix_faults",
    "mix_look",
    "mix_rules",
    "pack_of",
]
