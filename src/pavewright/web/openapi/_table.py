"""The table of routes, and its short way of writing types, read into JSON Schema."""

from __future__ import annotations

import tomllib
from dataclasses import dataclass, field
from functools import cache
from importlib.resources import files
from typing import Any

_PLAIN: dict[str, dict[str, Any]] = {
    "int": {"type": "integer"},
    "num": {"type": "number"},
    "str": {"type": "string"},
    "bool": {"type": "boolean"},
    "object": {"type": "object"},
    "any": {},
}
OCTETS, FORM = "octets", "form"


@dataclass(frozen=True, slots=True)
class Described:
    """One route, as programs read of it.

    Attributes:
        tag: Under which heading it stands.
        summary: What it does, in a sentence.
        takes: What is sent, as JSON Schema; None for nothing.
        takes_media: What kind of content is sent.
        answers: What is answered, as JSON Schema; None where it is no JSON.
        media: What kind of content is answered.
        status: Of a good answer.
        also: Other statuses where nothing went wrong: it leads on, or what is at hand is the same.
        query: What may stand in the address, with what it means.
        refusals: Statuses of refusals beside those that every route has.
        hidden: Whether it is no way in, and is left out of the description.
    """

    tag: str
    summary: str
    takes: dict[str, Any] | None = None
    takes_media: str = "application/json"
    answers: dict[str, Any] | None = None
    media: str = "application/json"
    status: int = 200
    also: tuple[int, ...] = ()
    query: dict[str, str] = field(default_factory=dict)
    refusals: tuple[int, ...] = ()
    hidden: bool = False


@cache
def described() -> dict[str, Described]:
    """Return every route by its method and path."""
    return {name: _route(entry) for name, entry in _read()["routes"].items()}


@cache
def kinds() -> dict[str, dict[str, Any]]:
    """Return the kinds that answers are made of, by name, as JSON Schema."""
    return {name: schema_of(entry) for name, entry in _read()["kinds"].items()}


@cache
def _read() -> dict[str, Any]:
    return tomllib.loads((files("pavewright.web.openapi") / "routes.toml").read_text("utf-8"))


def _route(entry: dict[str, Any]) -> Described:
    takes = entry.get("takes")
    media = {OCTETS: "application/octet-stream", FORM: "application/x-www-form-urlencoded"}.get(str(takes))
    kind = "application/x-www-form-urlencoded" if entry.get("form") else media or "application/json"
    return Described(
        tag=entry["tag"],
        summary=entry["summary"],
        takes=None if takes is None else ({"type": "string"} if media else schema_of(takes)),
        takes_media=kind,
        answers=schema_of(entry["answers"]) if "answers" in entry else None,
        media=entry.get("media", "application/json"),
        status=entry.get("status", 200),
        also=tuple(entry.get("also", ())),
        query=entry.get("query", {}),
        refusals=tuple(entry.get("refusals", ())),
        hidden=entry.get("hidden", False),
    )


def schema_of(written: Any) -> dict[str, Any]:  # noqa: ANN401 - as the table has it
    """Return a type of the table as JSON Schema.

    >>> schema_of({"rev": "int", "note?": "str?"})["required"]
    ['rev']
    >>> schema_of(["Fault"])
    {'type': 'array', 'items': {'$ref': '#/components/schemas/Fault'}}
    """
    if isinstance(written, list):
        return {"type": "array", "items": schema_of(written[0])}
    if isinstance(written, dict):
        return {
            "type": "object",
            "properties": {name.removesuffix("?"): schema_of(each) for name, each in written.items()},
            "required": [name for name in written if not name.endswith("?")],
        }
    name = str(written).removesuffix("?")
    found = _PLAIN.get(name, {"$ref": f"#/components/schemas/{name}"})
    return {"anyOf": [found, {"type": "null"}]} if str(written).endswith("?") else dict(found)
