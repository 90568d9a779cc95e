"""What the screens ask that no job is needed for: a photo made small, a sum, a file of another program."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING, Any

from pavewright import rulebook
from pavewright.desk._book_verbs import ScreenRefusalError
from pavewright.desk._photos import PhotoRefusedError, clean_photo
from pavewright.desk._plain import plain
from pavewright.desk._sums import answer_sum
from pavewright.desk._weather import weather_told
from pavewright.files import FileRefusedError, file_told
from pavewright.sums import SumRefusedError

if TYPE_CHECKING:
    from collections.abc import Callable

    Report = Callable[[str], None]
    Verb = Callable[[bytes, Report], bytes]


def _json(value: Any) -> bytes:  # noqa: ANN401 - anything that JSON holds
    return json.dumps(value, ensure_ascii=False, allow_nan=False, separators=(",", ":")).encode()


def _photo(payload: bytes, _report: Report) -> bytes:
    """Answer a picture with the photo that is kept of it."""
    try:
        return clean_photo(payload)
    except PhotoRefusedError as refusal:
        raise ScreenRefusalError(str(refusal)) from refusal


def _sum(payload: bytes, _report: Report) -> bytes:
    """Answer ``{"name", "given", "edition"}`` with the answers of a sum, and what of the rulebook went in."""
    asked = json.loads(payload)
    given = {name: tuple(value) if isinstance(value, list) else value for name, value in asked["given"].items()}
    try:
        answered = answer_sum(asked["name"], given, asked.get("edition", ""))
    except SumRefusedError as refusal:
        raise ScreenRefusalError(str(refusal)) from refusal
    taken = [{"name": each.quantity.name, "value": each.value, "from": each.words} for each in answered.taken]
    return _json({"answers": answered.answers, "taken": taken})


def _file(payload: bytes, _: Report) -> bytes:
    """Answer a file with what it holds; before it stands, on a line of its own, what is said of it as JSON."""
    asked, content = payload.split(b"\n", 1)
    try:
        return _json(file_told(content, json.loads(asked)))
    except FileRefusedError as refused:
        raise ScreenRefusalError(str(refused)) from None


def _weather(payload: bytes, _: Report) -> bytes:
    """Answer the name of a place, a line feed and a file of daily weather with its table of months."""
    place, content = payload.split(b"\n", 1)
    locality = place.decode(errors="replace")
    if locality not in rulebook.place_names():
        locality = rulebook.NEUTRAL
    try:
        return _json(plain(weather_told(content, locality)))
    except FileRefusedError as refused:
        raise ScreenRefusalError(str(refused)) from None


VERBS_WITHOUT_JOB: dict[str, Verb] = {"photo": _photo, "sum": _sum, "file": _file, "weather": _weather}
"""What a worker can be asked without a job, by name."""
