"""The firm's book at the desk: read and checked, and a price list brought into it."""

from __future__ import annotations

import datetime as dt
import json
import re
import tomllib
from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING, Any

from pavewright import firm, rulebook
from pavewright.desk._plain import plain
from pavewright.desk._rate_lists import brought_in_rates
from pavewright.desk._read import read_book
from pavewright.desk._unit_lists import as_units, at_their_pack, likely_kg, suggested_units
from pavewright.files import FileRefusedError, file_told
from pavewright.job import CatalogueItem, JobInvalid, MaterialKind, PackUnit, SupplierKind

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.firm import FirmBook, ListChange


def book_told(document: str | bytes | None) -> dict[str, Any]:
    """Return what is wrong with a book, and what follows from it: overhead with its sum, old prices, outputs learnt."""
    try:
        book = read_book(document)
    except JobInvalid as invalid:
        faults = [{"path": each.path, "message": each.message} for each in invalid.faults]
        return {"faults": faults, "overhead": None, "price_age_days": _usual_age_days(), "learnt": []}
    rate, age_days = firm.overhead_rate(book), book.rates.price_age_days or _usual_age_days()
    told: dict[str, Any] = {"faults": [], "overhead": None, "price_age_days": age_days, "learnt": _learnt(book)}
    if rate is None:
        return told
    working = rate.working
    over = {"minor_per_hour": rate.minor_per_hour, "percent": rate.percent, "sum": working.expression}
    return told | {"overhead": over | {"note": working.note}}


def usual_writing(document: str | bytes | None) -> dict[str, str]:
    """Return how the firm writes where a job does not say: ``region`` and ``measure``, as far as its book says it."""
    try:
        book = read_book(document)
    except JobInvalid:
        return {}
    said = {"region": book.region, "measure": book.measure and book.measure.value}
    return {name: word for name, word in said.items() if word}


@cache
def _usual_age_days() -> int:
    """Return after how many days a price is old where the firm does not say: the same figure in every edition."""
    edition = rulebook.newest(next(iter(rulebook.place_names())))
    return int(rulebook.load(edition).value("cost.price_age_days"))


def _learnt(book: FirmBook) -> list[dict[str, Any]]:
    """Return what past jobs say of outputs, by the rulebook of no place and at the pace of the book's crew."""
    found = firm.learnt_outputs(book.past, rulebook.load(rulebook.NEUTRAL), book.crew.pace)
    said = {(each.kind, each.pattern) for each in (*book.crew.outputs, *book.outputs)}
    return [
        {name: plain(getattr(each, name)) for name in _LEARNT} | {"said": (each.kind, each.pattern) in said}
        for each in found
    ]


_LEARNT = ("kind", "pattern", "jobs", "own_hours", "book_hours", "weight", "hours_each", "error_hours")


def prices_shown(document: str | bytes | None, content: bytes, asked: dict[str, Any]) -> dict[str, Any]:
    """Return a price list as it would be read, and what it would change in the book; nothing is taken yet.

    Args:
        document: The book.
        content: The list: CSV or XLSX.
        asked: ``supplier``, ``on`` (the day of the prices), and as far as a person said it ``supplier_kind``,
            ``columns``, ``decimal``, ``tax_percent``, ``per_unit``, ``sheet``, ``of`` (what is listed), ``per`` and
            ``uses`` (row to kind of material, machine, load or skill).
            What is left out stands as it was remembered for the supplier.

    Raises:
        FileRefusedError: the file is no price list, or supplier or day are missing.
        JobInvalid: the book cannot be read.
    """
    _, shown = _brought_in(read_book(document), content, asked)
    return shown


def prices_taken(document: str | bytes | None, content: bytes, asked: dict[str, Any]) -> tuple[str, dict[str, Any]]:
    """Return the book with a price list in it, and what that changed; how the list was read is remembered.

    Raises:
        FileRefusedError: the list cannot be read, or something has to be said first.
        JobInvalid: the book cannot be read.
    """
    book, shown = _brought_in(read_book(document), content, asked)
    if shown["asked"]:
        raise FileRefusedError(" ".join(shown["asked"]))
    if not shown["lines"]:
        message = "No line of the list can be taken."
        raise FileRefusedError(message)
    if not any(each["line"] is not None for each in shown["changes"]):
        message = "Say what the lines are: as it stands none of them is taken."
        raise FileRefusedError(message)
    text = firm.to_text(_remembering(book, asked, shown))
    read_book(text)
    return text, shown


def _brought_in(book: FirmBook, content: bytes, asked: dict[str, Any]) -> tuple[FirmBook, dict[str, Any]]:
    supplier, on = _supplier(asked), _day(asked)
    known = _known_list(book, supplier, _of(asked))
    told = file_told(content, {"kind": "prices", "currency": book.currency} | _remembered(known) | _said(asked))
    terms = {"supplier": supplier, "supplier_kind": _supplier_kind(asked, known), "priced_on": on}
    if told["of"] == firm.ListKind.GOODS:
        told["lines"] = at_their_pack(book, told["lines"], supplier)
        items = tuple(_item(each, terms) for each in told["lines"])
        lengths = {place: each["length_mm"] for place, each in enumerate(told["lines"]) if each["length_mm"]}
        units, missing, questions = as_units(told["lines"], asked, terms)
        after, changes = firm.with_listed(book, items, supplier, _uses(asked, told["lines"]), units, lengths)
        suggested = _suggested(book, told["lines"])
        there = {each.name for each in book.units if each.supplier == supplier}
        new = [each for each in told["lines"] if each["name"] not in there]
        told["likely_kg"] = likely_kg(told["lines"], asked, rulebook.load(rulebook.NEUTRAL).value(_CONCRETE))
        told |= {"units": suggested_units(new), "missing": missing, "asked": [*told["asked"], *questions]}
    else:
        after, changes, suggested = brought_in_rates(book, told, asked, terms)
    more = {"supplier": supplier, "on": on.isoformat(), "changes": [_change_told(each) for each in changes]}
    return after, told | more | {"suggested": suggested}


def _of(asked: dict[str, Any]) -> firm.ListKind:
    """Return what is listed, as a person said it; goods where nobody did."""
    given = asked.get("of")
    return firm.ListKind(given) if given in set(firm.ListKind) else firm.ListKind.GOODS


def _known_list(book: FirmBook, supplier: str, of: firm.ListKind) -> firm.PriceListRead | None:
    """Return how the list of a supplier was read before."""
    return next((each for each in book.price_lists if (each.supplier, each.of) == (supplier, of)), None)


def _supplier_kind(asked: dict[str, Any], known: firm.PriceListRead | None) -> SupplierKind | None:
    given = asked.get("supplier_kind")
    if given in set(SupplierKind):
        return SupplierKind(given)
    return None if known is None else known.supplier_kind


_CONCRETE = "laying.concrete_kg_per_m3"


def _item(line: dict[str, Any], terms: dict[str, Any]) -> CatalogueItem:
    return CatalogueItem(
        key="new",
        name=line["name"],
        pack_amount=line["pack_amount"],
        pack_unit=PackUnit(line["pack_unit"]),
        pack_price_minor=line["price_minor"],
        supplier_code=line["code"],
        min_packs=line["min_packs"],
        lead_days=line["lead_days"],
        **terms,
    )


def _change_told(change: ListChange) -> dict[str, Any]:
    return {
        "line": change.line,
        "kind": change.kind.value,
        "place": change.place.value,
        "name": change.name,
        "was_minor": change.was_minor,
        "now_minor": change.now_minor,
    }


def _supplier(asked: dict[str, Any]) -> str:
    supplier = asked.get("supplier")
    if not isinstance(supplier, str) or not supplier.strip() or len(supplier.strip()) > _NAME_MAX:
        message = "Say whose price list it is, in at most 60 letters."
        raise FileRefusedError(message)
    return supplier.strip()


_NAME_MAX = 60


def _day(asked: dict[str, Any]) -> dt.date:
    try:
        return dt.date.fromisoformat(str(asked.get("on")))
    except ValueError:
        message = "Say of which day the prices are."
        raise FileRefusedError(message) from None


def _said(asked: dict[str, Any]) -> dict[str, Any]:
    """Return how a person wants a list read, as far as that was said."""
    names = ("of", "per", "columns", "decimal", "tax_percent", "per_unit", "sheet")
    return {name: asked[name] for name in names if name in asked}


def _remembered(known: firm.PriceListRead | None) -> dict[str, Any]:
    """Return how a list was read before, as the reader takes it."""
    if known is None:
        return {}
    told: dict[str, Any] = {"per_unit": known.per_unit, "tax_percent": known.tax_percent, "sheet": known.sheet}
    told |= {name: value for name, value in (("decimal", known.decimal), ("per", known.per)) if value is not None}
    return told | {"columns": {each.kind.value: each.head or each.place for each in known.columns}}


def _remembering(book: FirmBook, asked: dict[str, Any], shown: dict[str, Any]) -> FirmBook:
    """Return a book that remembers how a list was read."""
    heads = shown["heads"]
    columns = [
        {"kind": kind, "head": heads[place] if place < len(heads) else "", "place": place}
        for kind, place in shown["columns"].items()
    ]
    before = _known_list(book, shown["supplier"], _of(asked))
    sheet = shown["sheet"] if asked.get("sheet") else ""
    names = ("supplier", "of", "per", "decimal", "tax_percent", "per_unit")
    more = {"supplier_kind": _supplier_kind(asked, before), "columns": columns, "sheet": sheet}
    made = firm.PriceListRead.model_validate_json(json.dumps({name: shown[name] for name in names} | more))
    others = tuple(each for each in book.price_lists if each is not before)
    return book.model_copy(update={"price_lists": (*others, made)})


def _uses(asked: dict[str, Any], lines: Sequence[dict[str, Any]]) -> dict[int, MaterialKind]:
    """Return which lines are to be which material, by their place; each material is one line."""
    given = asked.get("uses")
    if not isinstance(given, dict):
        return {}
    places = {str(each["row"]): place for place, each in enumerate(lines)}
    known = {each.value for each in MaterialKind}
    found: dict[int, MaterialKind] = {}
    for row, kind in given.items():
        if row not in places or kind not in known:
            continue
        if MaterialKind(kind) in found.values():
            message = "Two lines are to be the same material: choose one of them."
            raise FileRefusedError(message)
        found[places[row]] = MaterialKind(kind)
    return found


@cache
def _words() -> dict[str, list[list[str]]]:
    found: dict[str, list[list[str]]] = tomllib.loads(
        (files("pavewright.desk") / "price_words.toml").read_text("utf-8")
    )
    return found


def _kinds_meant(name: str) -> list[str]:
    """Return the materials that a name may mean; of two whose words it holds, the one that asks for more of them."""
    words = set(re.findall(r"[\w-]+", name.casefold()))
    fits = [(kind, set(way)) for kind, ways in _words().items() for way in ways if words.issuperset(way)]
    return list(dict.fromkeys(kind for kind, way in fits if not any(way < other for _, other in fits)))


def _suggested(book: FirmBook, lines: Sequence[dict[str, Any]]) -> dict[str, str]:
    """Return materials that lines may be, by row: only one that the book lacks and that a single line may be."""
    there = {each.key.value for each in book.rates.materials}
    fits: dict[str, list[str]] = {}
    for line in lines:
        kinds = _kinds_meant(line["name"])
        if len(kinds) == 1 and kinds[0] not in there:
            fits.setdefault(kinds[0], []).append(str(line["row"]))
    return {rows[0]: kind for kind, rows in fits.items() if len(rows) == 1}
