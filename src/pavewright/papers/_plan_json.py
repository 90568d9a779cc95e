"""The whole plan as JSON."""

from __future__ import annotations

import dataclasses
import datetime as dt
import json
from enum import Enum
from typing import TYPE_CHECKING, Any

from pydantic import BaseModel

from pavewright.cost import HireKey, TaskKey
from pavewright.levels import DoorStep
from pavewright.papers._sign_findings import findings_of
from pavewright.programme import WaitKey
from pavewright.quantities import ItemKey, ScopeKey

if TYPE_CHECKING:
    from pavewright.pipeline import Plan


def plan_json(plan: Plan) -> bytes:
    """Return a plan as JSON: every field of every room under its own name, numbers unrounded.

    Raises:
        ValueError: a number is not finite, which is a bug.
    """
    whole = dataclasses.replace(plan, findings=findings_of(plan))
    text = json.dumps(_plain(whole), ensure_ascii=False, allow_nan=False, separators=(",", ":"))
    return text.encode("utf-8") + b"\n"


_KEYS = (ItemKey, ScopeKey, TaskKey, HireKey, WaitKey)


def _plain(value: Any) -> Any:  # noqa: ANN401 - anything that a plan is made of
    if isinstance(value, _KEYS):
        return value.text
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        found = {field.name: _plain(getattr(value, field.name)) for field in dataclasses.fields(value)}
        # the words of a step at a door are made once, here and on paper alike
        return found | {"text": value.text} if isinstance(value, DoorStep) else found
    if isinstance(value, tuple | list):
        return [_plain(each) for each in value]
    if isinstance(value, BaseModel):
        return value.model_dump(mode="json")
    if isinstance(value, dt.date):
        return value.isoformat()
    if value is None or isinstance(value, str | bool | int | float):
        return value.value if isinstance(value, Enum) else value
    message = f"a plan holds no {type(value).__name__}"
    raise TypeError(message)
