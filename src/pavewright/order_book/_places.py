"""Where a job is, without a map: the district of its postcode, or the town of its address."""

from __future__ import annotations

import re

_POSTCODE = re.compile(r"\b([A-Z]{1,2}\d[A-Z\d]?)\s*\d[A-Z]{2}\b", re.IGNORECASE)
"""A postcode of Britain: the district, then a figure and two letters. Form from memory."""
_NUMBERED = re.compile(r"\d")


def place_of(address: str) -> str:
    """Return the place of an address, by which jobs are listed: empty where the address names none.

    It is the district of a British postcode where there is one; else the last part of the address without a figure.

    Args:
        address: The address as typed, its parts apart by commas or lines.

    >>> place_of("12 Mill Lane, Ashford Green, zz9 4qa")
    'ZZ9'
    >>> place_of("12 Mill Lane, Ashford Green")
    'Ashford Green'
    >>> place_of("12 Mill Lane")
    ''
    """
    found = _POSTCODE.search(address)
    if found is not None:
        return found.group(1).upper()
    parts = [" ".join(part.split()) for part in re.split(r"[,;\n]", address)]
    named = [part for part in parts if part and not _NUMBERED.search(part)]
    return named[-1][:60] if named else ""
