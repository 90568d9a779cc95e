"""What the server writes about itself, a line each: never who, where or what, only which part of the program.

A line is made of words of this program and of what a request is of: its route as it stands in the list, its method, the
status of its answer. What somebody sent, a filled address, a name and the words of an exception come into no line.
"""

from __future__ import annotations

import datetime as dt
import json
import logging
import re
import sys
import traceback
from contextvars import ContextVar
from pathlib import Path
from typing import Any, TextIO

REQUEST: ContextVar[str] = ContextVar("request", default="")
"""The name of the request that is answered now; empty where none is."""
OURS = "pavewright"
_SPEAK = (OURS, "uvicorn")
"""Whose sentences stand in a line; of others only who wrote, and how grave it is."""
_PLACE = re.compile(r'File "([^"]+)", line (\d+), in ([\w<>.]+)')
_PLACES_MAX = 12
"""How many places of an exception a line names, the innermost."""


def facts_of(record: logging.LogRecord) -> dict[str, Any]:
    """Return what a line says: when, how grave, from whom, what, and for which request."""
    at = dt.datetime.fromtimestamp(record.created, dt.UTC).isoformat(timespec="milliseconds")
    spoken = record.name.partition(".")[0] in _SPEAK
    facts: dict[str, Any] = {
        "time": at,
        "level": record.levelname.lower(),
        "from": record.name,
        "event": str(record.msg).strip() if spoken else "another part wrote something",
    }
    if REQUEST.get():
        facts["request"] = REQUEST.get()
    facts |= getattr(record, "told", {})
    errors = [each for each in record.args or () if isinstance(each, BaseException)] if _is_row(record.args) else []
    if record.exc_info and record.exc_info[1] is not None:
        errors.append(record.exc_info[1])
    if errors:
        facts["errors"] = [_told(each) for each in errors]
    return facts


def _is_row(args: object) -> bool:
    return isinstance(args, tuple)


def _told(problem: BaseException) -> dict[str, Any]:
    """Return the kind of an exception and where it came from: its own words may hold what somebody typed."""
    # a worker tells in words where it failed: of those the places alone are taken
    text = "".join([*traceback.format_tb(problem.__traceback__), str(problem)])
    places = [f"{Path(file).name}:{line} {name}" for file, line, name in _PLACE.findall(text)]
    return {"kind": type(problem).__name__, "places": places[-_PLACES_MAX:]}


class AsJson(logging.Formatter):
    """A line as a JSON object."""

    def format(self, record: logging.LogRecord) -> str:
        """Return the line."""
        return json.dumps(facts_of(record), ensure_ascii=False)


class Plain(logging.Formatter):
    """A line to read: when, how grave, what, then everything else by its name."""

    def format(self, record: logging.LogRecord) -> str:
        """Return the line."""
        facts = facts_of(record)
        begins = [str(facts.pop(name)) for name in ("time", "level", "event")]
        return " ".join([*begins, *(f"{name}={json.dumps(value)}" for name, value in facts.items())])


FORMATS: dict[str, type[logging.Formatter]] = {"json": AsJson, "plain": Plain}
"""How lines are written, by what the command calls it."""


def write_log(form: str, stream: TextIO | None = None) -> logging.Handler:
    """Write a line for each request and each trouble from now on; return what writes them.

    Args:
        form: ``json`` or ``plain``.
        stream: Where to; the stream of errors where none is given.
    """
    handler = logging.StreamHandler(stream or sys.stderr)
    handler.setFormatter(FORMATS[form]())
    root = logging.getLogger()
    root.addHandler(handler)
    root.setLevel(logging.WARNING)
    logging.getLogger(OURS).setLevel(logging.INFO)
    return handler
