"""Items of lists: what makes one known, which lists hold one of a kind, and which fields name what stands elsewhere."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from pavewright.job.operations._values import MISSING, known, same

if TYPE_CHECKING:
    from collections.abc import Hashable, Mapping

KEYS: Mapping[str, tuple[str, ...]] = {
    "tapes": ("start", "end", "length_mm"),
    "sides": ("point", "line_from", "line_to"),
    "square_corners": ("at", "first", "second"),
    "points_on_lines": ("point", "line_from", "line_to"),
    "benchmarks": ("point",),
    "heights_over": ("point", "over", "higher_mm"),
    "outline": ("point",),
    "edges": ("corner",),
    "materials": ("key",),
    "plant": ("key",),
    "catalogue": ("key",),
    "labour": ("skill",),
    "outputs": ("kind", "pattern"),
    "weather": ("month",),
    "tax_lines": ("group", "key"),
    "changes": ("key",),
    "walk_round": ("question",),
    "holds": ("key",),
    "pins": ("task",),
    "done": ("task",),
    "worked": ("task",),
    "cover_keys": ("cover",),
    "spares": ("unit",),
    "later_visits": ("date",),
    "read_again": ("label",),
    "variations": ("number",),
    "to_settle": ("number",),
    "settled": ("number",),
    "bills": ("number",),
    "strings_set": ("peg",),
}
"""The fields that make an item of a list known where it has no name; an item of any other list is known by its whole."""

UNIQUE = frozenset({
    *("sides", "benchmarks", "edges", "materials", "plant", "changes", "walk_round"),
    *("catalogue", "labour", "weather", "holds", "pins", "done", "worked", "cover_keys", "spares"),
    *("variations", "to_settle", "settled", "bills", "strings_set"),
    *("later_visits", "read_again"),
})  # fmt: skip
"""Lists that hold one item of each key: a second, other one is a clash. Of a name, the second gets a fresh one."""

ONCE = frozenset({"square_corners", "points_on_lines", "outline"})
"""Lists in which the same item twice says nothing more: it is added once. Of readings, both are kept."""

SETS = frozenset({"ground_points", "days_off", "weekdays"})
"""Lists of plain values that merge one by one; any other list of plain values is one value."""

KINDS: Mapping[str, str] = {
    "points": "point",
    "offsets": "point",
    "sketch": "point",
    "walls": "wall",
    "outfalls": "outfall",
    "gullies": "gully",
    "areas": "area",
    "units": "unit",
    "curves": "curve",
    "level_books": "book",
    "photo_planes": "photo",
}
"""What the items of a list are, where other parts of the document call them by name."""

PLACES = ("points", "offsets")
"""Lists that may not both place a point of one name."""

REFERENCES: Mapping[str, str] = {
    **dict.fromkeys(
        (
            *("start", "end", "point", "over", "line_from", "line_to", "base_from", "base_to", "corner", "at", "first"),
            *("second", "level_at", "origin", "through", "centre", "circle_at", "to", "points", "ground_points"),
            *("along", "beyond", "dpc_level_mm", "threshold_level_mm", "underside_level_mm", "level_mm"),
            *("start_level_mm", "end_level_mm", "drop_point", "level_from"),
        ),
        "point",
    ),
    "away_from": "wall",
    "wall": "wall",
    "gully": "gully",
    "outfall": "outfall",
    "unit": "unit",
    "course_units": "unit",
    "also_cut_from": "unit",
    "units_in_pack": "unit",
    "area": "area",
    "upper_area": "area",
    "lower_area": "area",
    "curve": "curve",
    "book": "book",
    "by_photo": "photo",
}
"""Fields that name what stands elsewhere in the document, and what that is."""

UNNAMED = frozenset({
    *("identity", "calendar", "accepted", "variations", "settled", "bills", "received"),
    *("tools", "strings_set"),
})  # fmt: skip
"""Parts of the document in which no field names anything else."""


def is_list_of_items(name: str, *values: Any) -> bool:  # noqa: ANN401 - any JSON values
    """Return whether values are lists that merge item by item."""
    if not all(isinstance(value, list) for value in values):
        return False
    if name in SETS:
        return not any(isinstance(item, dict | list) for value in values for item in value)
    kinds = {type(item) for value in values for item in value}
    return kinds <= {dict} or kinds == {list}


def selector_of(name: str, item: Any) -> dict[str, Any]:  # noqa: ANN401 - any JSON value
    """Return what makes an item of a list known, by the name of the list."""
    if isinstance(item, dict):
        fields = KEYS.get(name, ("name",))
        if all(isinstance(item.get(field), str | int | float) for field in fields):
            return {field: item[field] for field in fields}
    return {"is": item}


def is_named(name: str, item: Any) -> bool:  # noqa: ANN401 - any JSON value
    """Return whether an item of a list is known by a name of its own."""
    return name not in KEYS and isinstance(item, dict) and isinstance(item.get("name"), str)


def key_of(name: str, item: Any) -> Hashable:  # noqa: ANN401 - any JSON value
    """Return the selector of an item as it stands in a look-up."""
    return known(selector_of(name, item))


def key_in(selector: dict[str, Any]) -> Hashable:
    """Return a selector, without its count among equals, as it stands in a look-up."""
    return known({name: value for name, value in selector.items() if name != "nth"})


def with_nth(selector: dict[str, Any], nth: int) -> dict[str, Any]:
    """Return a selector of the item that stands after so many equal ones."""
    return selector | {"nth": nth} if nth else selector


def similar(one: Any, other: Any) -> bool:  # noqa: ANN401 - any JSON values
    """Return whether two items are likely one that was changed: a third of their fields, or of their entries, agree."""
    if isinstance(one, dict) and isinstance(other, dict):
        fields = one.keys() | other.keys()
        agree = sum(same(one.get(name, MISSING), other.get(name, MISSING)) for name in fields)
        named = isinstance(one.get("name"), str) and isinstance(other.get("name"), str)
        return (2 * agree >= len(fields) - 1) if named else (3 * agree >= len(fields))
    if isinstance(one, list) and isinstance(other, list):
        agree = sum(map(same, one, other))
        return 3 * agree >= max(len(one), len(other))
    return False


def names_elsewhere(name: str, *owners: dict[str, Any]) -> frozenset[str]:
    """Return the names that the other list of places gives points already."""
    lists = [owner.get(other) for owner in owners for other in PLACES if name in PLACES and other != name]
    items = [item for each in lists if isinstance(each, list) for item in each if isinstance(item, dict)]
    return frozenset(item["name"] for item in items if isinstance(item.get("name"), str))
