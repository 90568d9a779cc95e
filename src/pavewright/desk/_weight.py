"""What makes a request slow: told where it took too long."""

from __future__ import annotations

import json

from pavewright.desk._beside import apart, without_photos
from pavewright.job import heaviest

_WITH_HEAD = frozenset({"drawing", "storm", "paper"})
"""Verbs whose document stands behind a line of its own."""
_WITHOUT_DOCUMENT = frozenset({"photo", "sum", "file", "warm", "firm_check", "firm_prices", "logo"})


def what_weighs(verb: str, payload: bytes) -> str:
    """Return a sentence on what makes a request slow; empty where it holds no document, or nothing large."""
    if verb in _WITHOUT_DOCUMENT:
        return ""
    payload = without_photos(apart(payload)[1])
    text = payload.partition(b"\n")[2] if verb in _WITH_HEAD else payload
    try:
        document = json.loads(text)
    except (ValueError, RecursionError):
        return ""
    return heaviest(document) if isinstance(document, dict) else ""
