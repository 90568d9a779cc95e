"""Reading the fields of an entry that was sent, each refused with a sentence where it is none."""

from __future__ import annotations

import math
from typing import Any, NoReturn

_NAME_MAX = 60
_FARTHEST_MM = 10_000_000.0


class DeliveryRefusedError(Exception):
    """What was sent makes no sense with the job as it is; the message says what to measure again."""


def refuse(message: str) -> NoReturn:
    """Refuse a delivery with a sentence."""
    raise DeliveryRefusedError(message)


def text_in(entry: dict[str, Any], name: str, most: int) -> str:
    """Return the words of a field, empty where there are none."""
    found = entry.get(name, "")
    if not isinstance(found, str) or len(found) > most or any(ord(letter) < ord(" ") for letter in found):
        refuse(f"{name} has to be text of at most {most} letters.")
    if any("\ud800" <= letter <= "\udfff" for letter in found):
        refuse(f"{name} holds characters that no text may hold.")
    return found


def name_in(entry: dict[str, Any], name: str) -> str:
    """Return the name of a point, an area or a book."""
    found = text_in(entry, name, _NAME_MAX).strip()
    if not found:
        refuse(f"{name} is missing: choose what was read.")
    return found


def number_in(entry: dict[str, Any], name: str) -> float:
    """Return a number that a place or a level can have. [mm]."""
    found = entry.get(name)
    if isinstance(found, bool) or not isinstance(found, int | float) or not math.isfinite(found):
        refuse(f"{name} is not a number: read it again.")
    if abs(found) > _FARTHEST_MM:
        refuse(f"{name} is farther than any site: read it again, and check its unit.")
    return float(found)


def length_in(entry: dict[str, Any], name: str) -> float:
    """Return a length that is more than zero. [mm]."""
    found = number_in(entry, name)
    if found <= 0.0:
        refuse(f"{name} is {found:g} mm: a tape reads more than zero. Read it again.")
    return found


def one_of(entry: dict[str, Any], name: str, words: tuple[str, ...]) -> str:
    """Return a word out of several."""
    found = entry.get(name)
    if not isinstance(found, str) or found not in words:
        refuse(f"{name} is to be {' or '.join(words)}.")
    return found


def named(entry: dict[str, Any], *names: str) -> dict[str, Any]:
    """Return some fields of an entry, those that it has."""
    return {name: entry[name] for name in names if name in entry}


def these(owner: dict[str, Any], name: str, empty: Any) -> Any:  # noqa: ANN401 - a part of a JSON document
    """Return a part of a document, put there where it is missing.

    Raises:
        DeliveryRefusedError: something else stands there.
    """
    if owner.get(name) is None:
        owner[name] = empty
    if not isinstance(owner[name], type(empty)):
        refuse(f"{name} of this job cannot be read: fix the job first.")
    return owner[name]
