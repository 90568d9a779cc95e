"""Catalogue: every registered sum in one list, and published examples held against them.

A case is an example that somebody printed, with its source and place, the answers as printed, and how far ours may
differ: half a unit of the last printed digit, unless the case gives another tolerance with its reason.
"""

from pavewright.catalogue._cases import CaseFault, CaseRow, verify_cases
from pavewright.catalogue._register import ROOMS, SUMS, find

__all__ = ["ROOMS", "SUMS", "CaseFault", "CaseRow", "find", "verify_cases"]
