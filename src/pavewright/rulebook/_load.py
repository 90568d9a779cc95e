"""Reading editions from the package, and from folders of the user's own."""

from __future__ import annotations

import datetime as dt
import itertools
import os
import tomllib
from functools import cache
from importlib.resources import files
from pathlib import Path
from types import MappingProxyType
from typing import TYPE_CHECKING, Any
from zoneinfo import ZoneInfo

from pavewright.rulebook._zones import region_zones
from pavewright.rules import Assembled, Figure, Rulebook, Source, Status, Table, TableRow, read_source

if TYPE_CHECKING:
    from importlib.resources.abc import Traversable

_SOURCES = (
    Source("common_practice", "Common practice of the trade", "no source"),
    Source("definition", "By definition", "arithmetic or geometry"),
)
OWN_EDITIONS = "PAVEWRIGHT_RULEBOOKS"
"""The variable of the environment that names folders with editions of the user's own."""
NEUTRAL = "elsewhere"
"""The edition that is taken where no place is named."""
_UNDATED = dt.date.min
"""Date of an edition that gives none: it stands since what it extends does."""
_ROW_WORDS = frozenset({"key", "source", "place", "status", "label"})


class RulebookError(ValueError):
    """A rulebook file is not sound; names file and entry."""


def _data() -> Traversable:
    return files("pavewright.rulebook") / "data"


@cache
def _folders() -> MappingProxyType[str, Traversable]:
    """Return the folder of every edition by its name: those of the package, then those of the user.

    Raises:
        RulebookError: a name stands twice.
    """
    own = [Path(place) for place in os.environ.get(OWN_EDITIONS, "").split(os.pathsep) if place]
    homes: list[Traversable] = [_data(), *(place for place in own if place.is_dir())]
    found: dict[str, Traversable] = {}
    for folder in (folder for home in homes for folder in home.iterdir() if (folder / "edition.toml").is_file()):
        if folder.name in found:
            message = f"There are two editions {folder.name}: give yours a name of its own."
            raise RulebookError(message)
        found[folder.name] = folder
    return MappingProxyType(dict(sorted(found.items())))


def editions() -> tuple[str, ...]:
    """Return the names of all editions, in order."""
    return tuple(_folders())


@cache
def _head(edition: str) -> MappingProxyType[str, Any]:
    """Return what an edition says of itself.

    Raises:
        RulebookError: it does not say what it has to.
    """
    try:
        head = tomllib.loads((_folders()[edition] / "edition.toml").read_text("utf-8"))
        if not isinstance(head["title"], str) or head.get("extends", "common") not in _folders():
            message = f"{edition}/edition.toml extends no edition that there is, or its title is no text"
            raise RulebookError(message)
        if type(head.get("date", _UNDATED)) is not dt.date or any(
            not isinstance(head.get(name, ""), str) for name in ("locality", "place", "zone")
        ):
            message = f"{edition}/edition.toml: its date is no date such as 2026-11-28, or a name in it is no text"
            raise RulebookError(message)
        if head.get("zone"):
            ZoneInfo(head["zone"])  # what is no zone is a key that is not found
    except (KeyError, tomllib.TOMLDecodeError) as problem:
        message = f"{edition}/edition.toml: {problem}"
        raise RulebookError(message) from None
    return MappingProxyType(head)


def localities() -> tuple[str, ...]:
    """Return the places that a job may name as its locality: those of editions that extend another one."""
    return tuple(sorted({_locality(edition) for edition in editions() if "extends" in _head(edition)}))


def place_names() -> dict[str, str]:
    """Return what people call each locality: the place that its newest edition names, else its key in words."""
    return {
        locality: str(_head(newest(locality)).get("place", locality.replace("_", " ").capitalize()))
        for locality in localities()
    }


def zone_of(edition: str, region: str | None = None) -> str:
    """Return the time zone of the place of an edition, empty where it has several or nobody has said.

    An edition that names no place takes the zone of a region that has no more than one.
    """
    head = _head(edition)
    return str(head.get("zone", "")) or ("" if "place" in head else region_zones().get(region or "", ""))


def newest(locality: str) -> str:
    """Return the name of the newest edition of a place.

    Raises:
        RulebookError: there is none.
    """
    return _by_date(locality)[-1]


def edition_of(locality: str, dated: dt.date | None) -> str:
    """Return the name of the edition of a place with a date; the newest where no date is given or none has it.

    Raises:
        RulebookError: the place has no edition.
    """
    every = _by_date(locality)
    return next((edition for edition in every if _dated(edition) == dated), every[-1])


def _by_date(locality: str) -> list[str]:
    found = [edition for edition in editions() if "extends" in _head(edition) and _locality(edition) == locality]
    if not found:
        message = f"There is no rulebook edition {locality!r}; there are {', '.join(localities())}."
        raise RulebookError(message)
    found.sort(key=_dated)
    for one, other in itertools.pairwise(found):
        if _dated(one) == _dated(other):
            message = f"The editions {one} and {other} of {locality} have one date: give each its own."
            raise RulebookError(message)
    return found


def _locality(edition: str) -> str:
    """Return the place whose rules an edition holds: what it says, else its own name."""
    return str(_head(edition).get("locality", edition))


def _dated(edition: str) -> dt.date:
    """Return since when the figures of an edition stand: the latest date of it and of what it extends."""
    head = _head(edition)
    own: dt.date = head.get("date", _UNDATED)
    return max(own, _dated(head["extends"])) if "extends" in head else own


@cache
def _register() -> MappingProxyType[str, Source]:
    """Return the sources that every edition knows: those of published examples, common practice and definitions."""
    known = {source.key: source for source in _SOURCES}
    text = (_data() / "sources.toml").read_text("utf-8")
    _take_sources(known, tomllib.loads(text)["sources"], "sources.toml")
    return MappingProxyType(known)


@cache
def sources() -> MappingProxyType[str, Source]:
    """Return the sources of all editions by key, those of published examples among them."""
    known = dict(_register())
    for edition in editions():
        known |= load(edition).sources
    return MappingProxyType(known)


@cache
def load(edition: str) -> Rulebook:
    """Return one edition, with what it extends.

    Raises:
        RulebookError: there is no such edition, or one of its files is not sound.
    """
    if edition not in editions():
        message = f"There is no rulebook edition {edition!r}; there are {', '.join(editions())}."
        raise RulebookError(message)
    folder, head = _folders()[edition], _head(edition)
    base = load(head["extends"]) if "extends" in head else None
    figures = dict(base.figures) if base else {}
    tables = dict(base.tables) if base else {}
    sources = dict(base.sources) if base else dict(_register())
    assemblies = dict(base.assemblies) if base else {}
    for path in sorted(folder.iterdir(), key=lambda item: item.name):
        if path.name == "edition.toml" or not path.name.endswith(".toml"):
            continue
        room = path.name.removesuffix(".toml")
        try:
            entries = tomllib.loads(path.read_text("utf-8"))
        except tomllib.TOMLDecodeError as problem:
            message = f"{edition}/{path.name}: {problem}"
            raise RulebookError(message) from None
        _take_sources(sources, entries.get("sources", {}), f"{edition}/{path.name}")
        for name, entry in entries.get("figures", {}).items():
            figures[f"{room}.{name}"] = _figure(f"{room}.{name}", entry)
        for name, entry in entries.get("tables", {}).items():
            tables[f"{room}.{name}"] = _table(f"{room}.{name}", entry)
        for name, entry in entries.get("assemblies", {}).items():
            assemblies[name] = _assembled(name, f"{room}.{name}", entry, figures)
    rulebook = Rulebook(
        edition,
        head["title"],
        MappingProxyType(figures),
        MappingProxyType(tables),
        MappingProxyType(sources),
        _locality(edition),
        _dated(edition),
        MappingProxyType(assemblies),
        ZoneInfo(zone) if (zone := zone_of(edition)) else None,
        MappingProxyType({} if zone or "place" in head else {key: ZoneInfo(of) for key, of in region_zones().items()}),
    )
    _check_sources(rulebook)
    return rulebook


def _take_sources(sources: dict[str, Source], entries: dict[str, Any], where: str) -> None:
    for key, entry in entries.items():
        try:
            source = read_source(key, entry)
        except ValueError as problem:
            message = f"{where}: {problem}"
            raise RulebookError(message) from None
        if sources.setdefault(key, source) != source:
            message = f"{where}: source {key} is described in two ways"
            raise RulebookError(message)


def _figure(key: str, entry: dict[str, Any]) -> Figure:
    try:
        return Figure(
            key=key,
            value=float(entry["value"]),
            unit=entry["unit"],
            source=entry["source"],
            place=entry.get("place", ""),
            status=Status(entry["status"]),
            label=entry["label"],
            low=None if "low" not in entry else float(entry["low"]),
            high=None if "high" not in entry else float(entry["high"]),
        )
    except (KeyError, ValueError) as problem:
        message = f"figure {key}: {problem}"
        raise RulebookError(message) from None


def _assembled(name: str, figure: str, entry: dict[str, Any], figures: dict[str, Figure]) -> Assembled:
    try:
        if figure not in figures:
            message = f"assembly {name} has no figure {figure} that says how much"
            raise RulebookError(message)
        off = entry.get("off", False)
        words = {each: str(entry[each]) for each in ("name", "per", "unit")}
        return Assembled(name, figure, **words, when=str(entry.get("when", "")), off=off is True)
    except KeyError as problem:
        message = f"assembly {name} lacks {problem}"
        raise RulebookError(message) from None


def _table(key: str, entry: dict[str, Any]) -> Table:
    try:
        columns = tuple(entry["columns"].items())
        numbers = tuple((name, float(number)) for name, number in entry.get("numbers", {}).items())
        rows = tuple(
            TableRow(
                key=row["key"],
                values=tuple((name, float(row[name])) for name in row if name not in _ROW_WORDS),
                source=row["source"],
                place=row.get("place", ""),
                status=Status(row["status"]),
                label=row.get("label", ""),
            )
            for row in entry["rows"]
        )
    except (KeyError, ValueError) as problem:
        message = f"table {key}: {problem}"
        raise RulebookError(message) from None
    stray = {name for row in rows for name, _ in row.values} - {name for name, _ in columns}
    if stray:
        message = f"table {key} has numbers in columns that it does not list: {', '.join(sorted(stray))}"
        raise RulebookError(message)
    if numbers and {name for name, _ in numbers} != {name for name, _ in columns}:
        message = f"table {key} gives numbers for some of its columns only, or for others"
        raise RulebookError(message)
    return Table(key, columns, rows, entry["label"], numbers)


def _check_sources(rulebook: Rulebook) -> None:
    used = {figure.key: figure.source for figure in rulebook.figures.values()}
    used |= {f"{table.key}.{row.key}": row.source for table in rulebook.tables.values() for row in table.rows}
    for key, source in used.items():
        if source not in rulebook.sources:
            message = f"{key} names the source {source}, which is not described"
            raise RulebookError(message)
