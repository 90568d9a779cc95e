"""Results as plain values, for JSON."""

from __future__ import annotations

import dataclasses
import datetime as dt
from enum import Enum
from typing import Any

import numpy as np

from pavewright.quantities import Key


def plain(value: Any) -> Any:  # noqa: ANN401, PLR0911 - anything that a result is made of, one line each
    """Return a result as lists, dictionaries, words and numbers; a day is ISO text, what is not finite becomes None.

    A key is its text.
    """
    if isinstance(value, Key):
        return value.text
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        return {field.name: plain(getattr(value, field.name)) for field in dataclasses.fields(value)}
    if isinstance(value, dict):
        return {str(key): plain(each) for key, each in value.items()}
    if isinstance(value, tuple | list):
        return [plain(each) for each in value]
    if isinstance(value, np.ndarray):
        return plain(value.tolist())
    if isinstance(value, np.generic):
        return plain(value.item())
    if isinstance(value, Enum):
        return value.value
    if isinstance(value, dt.date):
        return value.isoformat()
    if isinstance(value, float):
        return value if np.isfinite(value) else None
    return value
