"""Catalogue: every registered sum in one list, and published examples compared with them.

A case is an example that somebody printed, with its source and place, the answers as printed, and how far ours may
differ: half a unit of the last printed digit, unless the case gives another tolerance with its reason. A case counts as
printed only where its inputs and answers were both read, in a source that somebody else can look up.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.catalogue._cases import CaseRow, verify_cases
    from pavewright.catalogue._faults import CaseFault
    from pavewright.catalogue._find import find
    from pavewright.catalogue._inputs import fall_unit, length_kind, read_input, without_kind
    from pavewright.catalogue._proof import CaseRecord, Standing, SumProof, case_records, proofs
    from pavewright.catalogue._register import ROOMS, SUMS
else:
    __getattr__ = face(__name__)

__all__ = [
    "ROOMS",
    "SUMS",
    "CaseFault",
    "CaseRecord",
    "CaseRow",
    "Standing",
    "SumProof",
    "case_records",
    "fall_unit",
    "find",
    "length_kind",
    "proofs",
    "read_input",
    "verify_cases",
    "without_kind",
]
