"""What a customer sends with his quotation: options that he ticks, his name and his signature, looked at one by one."""

from __future__ import annotations

import datetime as dt
import re
from dataclasses import dataclass
from enum import StrEnum
from itertools import pairwise
from math import hypot
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

SIGNED_WIDE, SIGNED_HIGH = 600, 200
"""The field in which a signature is drawn. [dots]"""
_TEXT_MAX = 40_000
_POINTS_MAX = 4_000
_STROKES_MAX = 120
_INK_MIN = 60.0
"""What may be sent of a drawn signature, and how long its strokes have to be together: a touch is none. [-, dots]"""
_STROKES = re.compile(r"(?:M[0-9]{1,3} [0-9]{1,3}(?:L[0-9]{1,3} [0-9]{1,3})+)+")
_POINT = re.compile(r"([ML])([0-9]{1,3}) ([0-9]{1,3})")
NAME_MAX = 120
QUESTION_MAX = 2_000
_OPTION = re.compile(r"[0-9]")


class FormField(StrEnum):
    """A field of the form by which a quotation is accepted."""

    OPTIONS = "options"
    NAME = "name"
    ON = "on"
    SIGNATURE = "signature"
    TOTAL = "seen_total"


@dataclass(frozen=True, slots=True)
class FormFault:
    """A field that cannot be taken as it is.

    Attributes:
        field: Which one.
        words: What to do, in a sentence.
    """

    field: FormField
    words: str


@dataclass(frozen=True, slots=True)
class Chosen:
    """What a customer ticked, and what it comes to.

    Attributes:
        options: Numbers of the options, in the order of the offer.
        names: Their names.
        total_minor: What is to pay with them, with tax; None where they do not go together. [minor units]
        total: The same as it is written; empty where they do not go together.
        days: How many working days it takes more or less, in words; empty where that is not known or nothing is ticked.
        why_not: Why they do not go together; empty where they do.
    """

    options: tuple[int, ...]
    names: tuple[str, ...]
    total_minor: int | None
    total: str
    days: str
    why_not: str


@dataclass(frozen=True, slots=True)
class Signed:
    """What a customer signs with.

    Attributes:
        name: His name.
        on: The day that he wrote beside it.
        drawn: His signature as strokes; empty where he typed it.
        typed: His signature as he typed it; empty where he drew it.
    """

    name: str
    on: dt.date
    drawn: str
    typed: str


def chosen_of(shown: Mapping[str, Any], ticked: Iterable[str]) -> Chosen | None:
    """Return what is ticked with what it comes to; None where something is ticked that is not offered.

    Args:
        shown: What the link shows, as it is kept.
        ticked: Numbers of options, as they were sent.
    """
    sent = list(ticked)
    offers = {each["number"]: each["name"] for each in shown["offers"]}
    numbers = {int(each) for each in sent if _OPTION.fullmatch(each)}
    if len(numbers) != len(set(sent)) or not numbers <= set(offers):
        return None
    options = tuple(sorted(numbers))
    found = next((each for each in shown["totals"] if tuple(each["options"]) == options), None)
    if found is None:
        return None
    names = tuple(offers[number] for number in options)
    return Chosen(options, names, found["total_minor"], found["total"], found["days"], found["why_not"])


def signed_of(fields: Mapping[str, str], days: tuple[dt.date, dt.date]) -> Signed | tuple[FormFault, ...]:
    """Return what a customer signed with, or every field of it that cannot be taken.

    Args:
        fields: The fields of the form as they were sent.
        days: First and last day that may stand beside his name.
    """
    name = one_line(fields.get("name", ""))[:NAME_MAX]
    typed = one_line(fields.get("typed", ""))[:NAME_MAX]
    drawn, on = signature_of(fields.get("drawn", "")), _day(fields.get("on", ""))
    faults = tuple(_faults(name, on, days, signed=bool(drawn or typed), sent=bool(fields.get("drawn", ""))))
    if faults or on is None:
        return faults
    return Signed(name, on, drawn, "" if drawn else typed)


def _faults(
    name: str, on: dt.date | None, days: tuple[dt.date, dt.date], *, signed: bool, sent: bool
) -> Iterator[FormFault]:
    if not name:
        yield FormFault(FormField.NAME, "Write your name.")
    if on is None or not days[0] <= on <= days[1]:
        yield FormFault(FormField.ON, "Write the day of today.")
    if not signed:
        words = "The drawn signature could not be read: draw it again" if sent else "Sign: draw your signature"
        yield FormFault(FormField.SIGNATURE, f"{words}, or type your name in its place.")


def signature_of(sent: str) -> str:
    """Return the strokes of a drawn signature; empty where they are none that can be kept.

    Taken are nothing but strokes of straight lines between whole numbers inside the field.

    >>> signature_of("M10 10L90 40L20 90"), signature_of("M10 10L11 10"), signature_of('M1 1L9 9"/><script>')
    ('M10 10L90 40L20 90', '', '')
    """
    if len(sent) > _TEXT_MAX or _STROKES.fullmatch(sent) is None:
        return ""
    strokes: list[list[tuple[int, int]]] = []
    for sign, x, y in _POINT.findall(sent):
        if sign == "M":
            strokes.append([])
        strokes[-1].append((int(x), int(y)))
    points = [point for stroke in strokes for point in stroke]
    if len(points) > _POINTS_MAX or len(strokes) > _STROKES_MAX:
        return ""
    if any(x > SIGNED_WIDE or y > SIGNED_HIGH for x, y in points):
        return ""
    ink = sum(_length(stroke) for stroke in strokes)
    return "".join(_written(stroke) for stroke in strokes) if ink >= _INK_MIN else ""


def _length(stroke: Sequence[tuple[int, int]]) -> float:
    return sum(hypot(x1 - x0, y1 - y0) for (x0, y0), (x1, y1) in pairwise(stroke))


def _written(stroke: Sequence[tuple[int, int]]) -> str:
    return "M" + "L".join(f"{x} {y}" for x, y in stroke)


def _day(text: str) -> dt.date | None:
    try:
        return dt.date.fromisoformat(text)
    except ValueError:
        return None


def one_line(text: str) -> str:
    r"""Return a text as one line without signs that steer.

    >>> one_line(" Ada\n  Example ")
    'Ada Example'
    """
    return " ".join("".join(sign if sign.isprintable() else " " for sign in text).split())


def question_of(text: str) -> str:
    """Return a question as it is kept: its lines without signs that steer, empty where nothing is left."""
    lines = (one_line(line) for line in text.replace("\r\n", "\n").replace("\r", "\n").split("\n"))
    return "\n".join(lines).strip()[:QUESTION_MAX]
