"""A document is kept where it can be read again; one of an older store that cannot is read as far as it goes."""

from __future__ import annotations

import json
import math
import re
from dataclasses import dataclass
from typing import Any

from pavewright.job import NotJobJsonError, strict_json, up_to_date

_HALF_SIGN = re.compile("[\ud800-\udfff\x00]")
_MAX_FIGURES = 300


class DocumentRefusedError(ValueError):
    """A document that could not be read again; carries a sentence."""

    def __init__(self, message: str) -> None:
        """Keep it."""
        super().__init__(message)
        self.message = message


@dataclass(frozen=True, slots=True)
class ReadBack:
    """A kept document as it is read.

    Attributes:
        document: Its fields, in the present version of a job document; where it has a fault, what could be read of
            them, None where nothing could.
        fault: Why it cannot be read as it was kept; empty where it can.
    """

    document: dict[str, Any] | None
    fault: str


def checked(document: str) -> tuple[str, dict[str, Any]]:
    """Return a document as it is kept, and its fields.

    Raises:
        DocumentRefusedError: it could not be read again.
    """
    text = document.removeprefix("\ufeff")
    try:
        value = strict_json(text)
    except NotJobJsonError as problem:
        raise DocumentRefusedError(problem.message) from None
    if not isinstance(value, dict):
        raise DocumentRefusedError("A job document is a JSON object.")
    return text, value


def read_back(document: str) -> ReadBack:
    """Return the fields of a kept document, or what can be read of them and its fault."""
    try:
        return ReadBack(up_to_date(checked(document)[1]), "")
    except DocumentRefusedError as problem:
        found = _as_far_as_it_goes(document)
        return ReadBack(None if found is None else up_to_date(found), problem.message)


def _as_far_as_it_goes(document: str) -> dict[str, Any] | None:
    """Return the fields of a document without the numbers and signs that none can hold."""
    try:
        value = json.loads(
            document.removeprefix("\ufeff"), parse_constant=lambda _: None, parse_float=_finite, parse_int=_whole
        )
        return checked(json.dumps(_without_half_signs(value)))[1]
    except (ValueError, RecursionError):
        return None


def _finite(word: str) -> float | None:
    value = float(word)
    return value if math.isfinite(value) else None


def _whole(word: str) -> int | None:
    return int(word) if len(word) <= _MAX_FIGURES else None


def _without_half_signs(value: Any) -> Any:  # noqa: ANN401 - whatever JSON holds
    if isinstance(value, str):
        return _HALF_SIGN.sub("\ufffd", value)
    if isinstance(value, list):
        return [_without_half_signs(each) for each in value]
    if isinstance(value, dict):
        return {_without_half_signs(name): _without_half_signs(each) for name, each in value.items()}
    return value
