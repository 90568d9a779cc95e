"""Lists of plant, of loads taken away and of labour brought into the book: what each line is, and what it changes."""

from __future__ import annotations

import re
import tomllib
from enum import StrEnum
from functools import cache
from importlib.resources import files
from typing import TYPE_CHECKING, Any, TypeVar

from pavewright import firm
from pavewright.files import FileRefusedError
from pavewright.job import Disposal, DisposalKind, LabourRate, PlantHire, PlantKind, Skill

if TYPE_CHECKING:
    from pavewright.firm import FirmBook, ListChange

_K = TypeVar("_K", bound=StrEnum)
Told = dict[str, Any]
Brought = tuple["FirmBook", "tuple[ListChange, ...]", "dict[str, str]"]
"""The book, what changes in it, and what lines are suggested to be, by row."""


def brought_in_rates(book: FirmBook, told: Told, asked: Told, terms: Told) -> Brought:
    """Return the book with a list of plant, loads or labour in it.

    Args:
        book: The book.
        told: The list as it was read; lines that cannot be taken after all go to its bad rows.
        asked: What a person said; ``uses`` says what lines are, by row: as suggested where it is left out.
        terms: Supplier, kind of supplier and day.

    Raises:
        FileRefusedError: two lines are to be the same.
    """
    if told["of"] == firm.ListKind.PLANT:
        return _plant(book, told, asked, terms)
    if told["of"] == firm.ListKind.DISPOSAL:
        return _loads(book, told, asked, terms)
    return _labour(book, told, asked, terms)


@cache
def _words() -> dict[str, dict[str, list[list[str]]]]:
    found: dict[str, dict[str, list[list[str]]]] = tomllib.loads(
        (files("pavewright.desk") / "rate_words.toml").read_text("utf-8")
    )
    return found


def _kind_in(name: str, of: str) -> str:
    """Return what a name says that a line is; empty where it says nothing, or more than one thing."""
    words = set(re.findall(r"[\w-]+", name.casefold()))
    kinds = [kind for kind, ways in _words()[of].items() if any(words.issuperset(way) for way in ways)]
    return kinds[0] if len(kinds) == 1 else ""


def _said(asked: Told, suggested: dict[str, str], kinds: type[_K]) -> dict[str, _K]:
    """Return what lines are, by row: as a person said it, else as suggested."""
    given = asked.get("uses")
    chosen = given if isinstance(given, dict) else suggested
    known = {each.value for each in kinds}
    return {str(row): kinds(kind) for row, kind in chosen.items() if kind in known}


def _plant(book: FirmBook, told: Told, asked: Told, terms: Told) -> Brought:
    entries = [each for each in book.rates.plant if each.supplier == terms["supplier"]]
    there = {each.supplier_code: each.key for each in entries if each.supplier_code}
    there |= {each.name: each.key for each in entries if not each.supplier_code}
    suggested = {}
    for line in told["lines"]:
        kind = there.get(line["code"] or line["name"]) or _kind_in(line["name"], "plant")
        if kind:
            suggested[str(line["row"])] = str(kind)
    uses = _said(asked, suggested, PlantKind)
    hires = {}
    for place, line in enumerate(told["lines"]):
        machine = uses.get(str(line["row"]))
        if machine is not None:
            hires[place] = PlantHire(
                key=machine,
                name=line["name"],
                day_price_minor=line["price_minor"],
                weekly_price_minor=line["week_minor"],
                min_days=line["min_days"],
                delivery_minor=line["delivery_minor"],
                lead_days=line["lead_days"],
                supplier_code=line["code"],
                **terms,
            )
    return *firm.with_hires(book, hires, terms["supplier"]), suggested


def _loads(book: FirmBook, told: Told, asked: Told, terms: Told) -> Brought:
    def load(line: Told, kind: DisposalKind) -> Disposal:
        return Disposal(
            kind=kind,
            volume_m3=line["volume_m3"],
            payload_tonnes=line["payload_tonnes"],
            load_price_minor=line["price_minor"],
            lead_days=line["lead_days"],
            supplier_code=line["code"],
            **terms,
        )

    kinds = {place: _kind_in(line["name"], "disposal") for place, line in enumerate(told["lines"])}
    known = {place: load(told["lines"][place], DisposalKind(kind)) for place, kind in kinds.items() if kind}
    place = firm.disposal_line(book, known)
    if place is None and len(known) == len(told["lines"]) == 1:
        place = 0
    suggested = {} if place is None else {str(told["lines"][place]["row"]): known[place].kind.value}
    uses = _said(asked, suggested, DisposalKind)
    if len(uses) > 1:
        message = "Spoil leaves by one of the lines: choose which."
        raise FileRefusedError(message)
    for number, line in enumerate(told["lines"]):
        if str(line["row"]) in uses:
            return *firm.with_loads(book, number, load(line, uses[str(line["row"])])), suggested
    return book, (), suggested


def _labour(book: FirmBook, told: Told, asked: Told, terms: Told) -> Brought:
    _by_the_hour(book, told)
    fits: dict[str, list[str]] = {}
    for line in told["lines"]:
        kind = _kind_in(line["name"], "labour")
        if kind:
            fits.setdefault(kind, []).append(str(line["row"]))
    suggested = {rows[0]: kind for kind, rows in fits.items() if len(rows) == 1}
    uses = _said(asked, suggested, Skill)
    if len(set(uses.values())) < len(uses):
        message = "Two lines are to be the same skill: choose one of them."
        raise FileRefusedError(message)
    who = {"supplier": terms["supplier"], "priced_on": terms["priced_on"]}
    hours = {
        place: LabourRate(skill=uses[str(line["row"])], minor_per_hour=line["price_minor"], **who)
        for place, line in enumerate(told["lines"])
        if str(line["row"]) in uses
    }
    return *firm.with_hours(book, hours), suggested


def _by_the_hour(book: FirmBook, told: Told) -> None:
    """Make prices of a day into those of an hour, where the book says how many hours a day has."""
    hours = book.crew.hours_per_day if "hours_per_day" in book.crew.model_fields_set else None
    kept = []
    for line in told["lines"]:
        if line["per"] == firm.ListPer.DAY and hours is None:
            words = "It is a price of a day: write in the usual crew how many hours a day has, or give that of an hour."
            told["bad"].append({"row": line["row"], "words": words})
            continue
        if line["per"] == firm.ListPer.DAY and hours is not None:
            words = f"{line['note']} A day has {hours:g} hours.".strip()
            line = line | {"price_minor": int(line["price_minor"] / hours + 0.5), "note": words}  # noqa: PLW2901
        kept.append(line)
    told["lines"] = kept
    told["bad"].sort(key=lambda each: each["row"])
