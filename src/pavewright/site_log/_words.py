"""The sentences of the findings on the log, in one place."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.findings import worded
from pavewright.writing import day_text

if TYPE_CHECKING:
    import datetime as dt

    from pavewright.findings import Option

_Told = tuple[str, "tuple[Option, ...]"]


def booked_more(booked_h: float, there_h: float) -> _Told:
    """Say that more hours are booked on tasks than people were there. [h]."""
    words = f"{booked_h:g} h are booked on tasks, and those who were there were there for {there_h:g} h."
    return words, worded(("Correct the hours, or add who is missing.",))


def person_twice(name: str) -> _Told:
    """Say that two logs of one day give somebody other hours."""
    words = f"Two logs give {name} other hours. Their hours count as not known."
    return words, worded(("Correct one of the two logs.",))


def no_such_task(keys: tuple[str, ...]) -> _Told:
    """Say that hours are booked on tasks that the plan does not hold now."""
    words = f"Hours are booked on {', '.join(keys)}: the plan holds no such task now. They stay in the log."
    return words, worded(("Book them on the task that took its place.",))


def done_differs(logged_percent: float, shown_percent: float) -> _Told:
    """Say that the programme shows something else as done than the log. [%]."""
    words = f"{logged_percent:g} % done by the log, {shown_percent:g} % by the programme."
    return words, worded(("Take the log over into the programme.", "Correct the log."))


def less_done(on: dt.date, before_percent: float, after_percent: float) -> _Told:
    """Say that less is done than on an earlier day. [%]."""
    words = f"{before_percent:g} % was done before {day_text(on)}, {after_percent:g} % at its end."
    return words, worded(("Correct one of the two; say in a note what was taken up again.",))


def slower(low_h: float, high_h: float, most_h: float) -> _Told:
    """Say that a task takes longer than the plan allows. [h]."""
    ends = f"{low_h:.0f}" if f"{low_h:.0f}" == f"{high_h:.0f}" else f"{low_h:.0f} to {high_h:.0f}"
    words = f"{ends} h in all at this pace, and the plan allows no more than {most_h:.0f} h."
    return words, worded(("Look what holds it up; put somebody on it, or move what comes after.",))
