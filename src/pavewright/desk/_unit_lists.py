"""Lines of a price list that are paving units: what their words say of them, and what has to be asked."""

from __future__ import annotations

import math
import re
from typing import TYPE_CHECKING, Any

from pydantic import ValidationError

from pavewright import units
from pavewright.job import PackUnit, PavingUnit, UnitKind

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.firm import FirmBook

Line = dict[str, Any]
_SIZES = re.compile(
    r"(?<![\w.,])(\d{2,4}(?:[.,]\d)?)\s*(?:mm)?\s*[x×*]\s*(\d{2,4}(?:[.,]\d)?)"
    r"(?:\s*(?:mm)?\s*[x×*]\s*(\d{1,3}(?:[.,]\d)?))?\s*(mm|cm)?(?![\w²³])"
)
_KINDS: tuple[tuple[UnitKind, re.Pattern[str]], ...] = (
    (UnitKind.SETT, re.compile(r"\bsetts?\b|\bcubes?\b")),
    (UnitKind.BLOCK, re.compile(r"\bblocks?\b|\bpavers?\b|\bblock paving\b")),
    (UnitKind.FLAG, re.compile(r"\bflags?\b|\bslabs?\b|\bflagstones?\b|\bpaving\b")),
)
_SMALLEST_MM = 90.0
"""No slab, block or sett is smaller in plan: a smaller number is of another unit, and is asked. [mm]"""
_SIDES = ("length_mm", "width_mm", "thickness_mm")
_ASKED = {
    "kind": "whether it is a slab, a block or a sett",
    "length_mm": "how long it is",
    "width_mm": "how wide it is",
    "thickness_mm": "how thick it is",
    "kg_each": "what one weighs",
    "per_pack": "how many one pack holds",
    "pack_m2": "how many square metres the supplier counts for one pack",
}
"""What a paving unit needs, in the words of a question."""


def read_in_name(line: Line) -> dict[str, Any]:
    """Return what a line says of a paving unit: kind, sizes, how many to a pack; what it does not say is left out."""
    words = line["name"].casefold()
    found: dict[str, Any] = {}
    kind = next((kind for kind, pattern in _KINDS if pattern.search(words)), None)
    if kind is not None:
        found["kind"] = kind.value
    sizes = _SIZES.search(words)
    if sizes is not None:
        times = 10.0 if sizes[4] == "cm" else 1.0
        given = [None if each is None else float(each.replace(",", ".")) * times for each in sizes.groups()[:3]]
        if all(each is not None and each >= _SMALLEST_MM for each in given[:2]):
            found |= {side: each for side, each in zip(_SIDES, given, strict=True) if each is not None}
    amount = line["pack_amount"]
    if line["pack_unit"] == PackUnit.EACH and amount == int(amount) and not _only_priced(line):
        found["per_pack"] = int(amount)
    return found


def _only_priced(line: Line) -> bool:
    """Return whether its pack is what the price is of, and nobody said what a pack holds."""
    return bool(line["by_count"] == line["pack_amount"])


def suggested_units(lines: list[Line]) -> dict[str, dict[str, Any]]:
    """Return lines whose names say a kind and a size of a paving unit, by row."""
    found = {str(each["row"]): read_in_name(each) for each in lines}
    return {row: known for row, known in found.items() if "kind" in known and "length_mm" in known}


def as_units(
    lines: list[Line], asked: dict[str, Any], terms: dict[str, Any]
) -> tuple[dict[int, PavingUnit], dict[str, list[str]], list[str]]:
    """Return the lines that are to be paving units, by their place; what is missing of others, by row; and questions.

    Args:
        lines: The lines.
        asked: ``units``: by row, what a person said of a unit beside what its line says.
        terms: Supplier, kind of supplier and day.
    """
    given = asked.get("units")
    chosen = given if isinstance(given, dict) else {}
    made: dict[int, PavingUnit] = {}
    missing: dict[str, list[str]] = {}
    questions = []
    for place, line in enumerate(lines):
        said = chosen.get(str(line["row"]))
        if not isinstance(said, dict):
            continue
        known = read_in_name(line) | {name: said[name] for name in _ASKED if said.get(name) not in {None, ""}}
        wanted = [name for name in _needs(line) if name not in known]
        if wanted:
            missing[str(line["row"])] = wanted
            questions.append(f"{line['name']}: say {_ASKED[wanted[0]]}.")
            continue
        try:
            made[place] = _unit(line, known, terms)
        except (ValidationError, ValueError, TypeError):
            questions.append(f"{line['name']}: a size, weight or pack of it cannot be: look again at its figures.")
    return made, missing, questions


def likely_kg(lines: list[Line], asked: dict[str, Any], kg_per_m3: float) -> dict[str, float]:
    """Return what a unit would weigh in concrete, by row, where its size is known: shown, never taken."""
    given = asked.get("units")
    found: dict[str, float] = {}
    for line in lines:
        said = given.get(str(line["row"])) if isinstance(given, dict) else None
        if not isinstance(said, dict):
            continue
        known = read_in_name(line) | {side: said[side] for side in _SIDES if isinstance(said.get(side), int | float)}
        if all(side in known for side in _SIDES):
            volume_m3 = math.prod(units.mm_to_m(float(known[side])) for side in _SIDES)
            found[str(line["row"])] = round(volume_m3 * kg_per_m3, 1)
    return found


def _needs(line: Line) -> list[str]:
    by_area = line["pack_unit"] == PackUnit.M2 and line["pack_amount"] == 1.0
    return [name for name in _ASKED if name != "pack_m2" or by_area]


def _unit(line: Line, known: dict[str, Any], terms: dict[str, Any]) -> PavingUnit:
    """Return a paving unit at the price of its pack."""
    per_pack, price = int(known["per_pack"]), float(line["price_minor"])
    if line["by_count"]:
        price = price * per_pack / line["pack_amount"]
    elif "pack_m2" in _needs(line):
        price *= float(known["pack_m2"])
    elif line["pack_unit"] == PackUnit.EACH:
        price *= per_pack / line["pack_amount"]
    return PavingUnit(
        name=line["name"],
        kind=UnitKind(known["kind"]),
        length_mm=float(known["length_mm"]),
        width_mm=float(known["width_mm"]),
        thickness_mm=float(known["thickness_mm"]),
        kg_each=float(known["kg_each"]),
        per_pack=per_pack,
        pack_price_minor=int(price + 0.5),
        supplier_code=line["code"],
        min_packs=line["min_packs"],
        lead_days=line["lead_days"],
        **terms,
    )


def at_their_pack(book: FirmBook, lines: list[Line], supplier: str) -> list[Line]:
    """Return lines of which those priced by the thousand that the book has as a paving unit are those of its pack."""
    units = [each for each in book.units if each.supplier == supplier]
    by_code: Mapping[str, PavingUnit] = {each.supplier_code: each for each in units if each.supplier_code}
    by_name = {each.name: each for each in units}
    found = []
    for line in lines:
        unit = by_code.get(line["code"]) or by_name.get(line["name"])
        if unit is not None and _only_priced(line):
            price = int(line["price_minor"] * unit.per_pack / line["pack_amount"] + 0.5)
            line = line | {"pack_amount": float(unit.per_pack), "price_minor": price}  # noqa: PLW2901
        found.append(line)
    return found
