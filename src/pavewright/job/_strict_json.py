"""JSON as a job holds it: every number is finite, every text can be written again, no field stands twice."""

from __future__ import annotations

import json
import math
import re
from typing import Any, NoReturn

_HALF_SIGN = re.compile("[\ud800-\udfff\x00]")
_BRACKETS = re.compile(r'"(?:[^"\\]|\\.)*"|[\[{\]}]', re.DOTALL)
_DEEPEST = 40


class NotJobJsonError(ValueError):
    """Text that is no JSON, or holds what no job holds; carries a sentence and the field that it speaks of."""

    def __init__(self, message: str, field: str = "") -> None:
        """Keep both."""
        super().__init__(message)
        self.message = message
        self.field = field


def strict_json(text: str) -> Any:  # noqa: ANN401 - whatever JSON holds
    """Return the value of a text, checked against what can be stored and read again.

    Raises:
        NotJobJsonError: no JSON, nested too deep, a number that is not finite, half of a sign, a field given twice.
    """
    if _depth(text) > _DEEPEST:
        message = f"The file nests more than {_DEEPEST} brackets deep; no job document does."
        raise NotJobJsonError(message)
    try:
        value = json.loads(
            text.removeprefix("\ufeff"),
            object_pairs_hook=_once,
            parse_constant=_no_number,
            parse_float=_finite,
            parse_int=_finite_whole,
        )
    except NotJobJsonError:
        raise
    except (ValueError, RecursionError) as problem:
        where = f" at line {problem.lineno}" if isinstance(problem, json.JSONDecodeError) else ""
        message = f"The file cannot be read as a job document{where}: a bracket, comma or quotation mark is amiss."
        raise NotJobJsonError(message) from None
    _no_half_signs(value)
    return value


def _depth(text: str) -> int:
    """Return the greatest nesting of brackets outside quoted words."""
    deepest = depth = 0
    for found in _BRACKETS.finditer(text):
        bracket = found[0]
        if bracket in "[{":
            depth += 1
            deepest = max(deepest, depth)
        elif bracket in "]}":
            depth -= 1
    return deepest


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    found = dict(pairs)
    if len(found) != len(pairs):
        met: set[str] = set()
        for name, _ in pairs:
            if name in met:
                message = f"The field {_shown(name)} stands twice in one place: keep the right one."
                raise NotJobJsonError(message, name)
            met.add(name)
    return found


def _no_number(word: str) -> NoReturn:
    message = f"The document holds {word}, which is not a reading: measure it again."
    raise NotJobJsonError(message)


def _finite(word: str) -> float:
    value = float(word)
    if not math.isfinite(value):
        _no_number(word[:20])
    return value


_MAX_FIGURES = 300
"""A whole number of more figures than this is beyond every number that is kept."""


def _finite_whole(word: str) -> int:
    if len(word) > _MAX_FIGURES:
        _no_number(f"a number of {len(word)} figures")
    return int(word)


def _no_half_signs(value: Any) -> None:  # noqa: ANN401 - whatever JSON holds
    """Refuse text that holds half of a sign, as is left when a longer sign is cut."""
    waiting = [value]
    while waiting:
        each = waiting.pop()
        if isinstance(each, str):
            if _HALF_SIGN.search(each):
                message = f"The words {_shown(each)!r} hold half of a sign, or a sign that is none: write them again."
                raise NotJobJsonError(message)
        elif isinstance(each, dict):
            waiting += each
            waiting += each.values()
        elif isinstance(each, list):
            waiting += each


def _shown(words: str) -> str:
    return _HALF_SIGN.sub("\ufffd", words)[:60]
