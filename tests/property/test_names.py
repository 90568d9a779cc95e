"""A name is what somebody likes to call a thing: calling it otherwise changes no figure of the plan."""

from __future__ import annotations

import functools
import itertools
import json
from collections import Counter
from pathlib import Path

import pytest

from pavewright.desk import make_plan
from pavewright.papers import plan_json

EXAMPLES = {
    path.stem: json.loads(path.read_text("utf-8")) for path in Path(__file__).parents[2].glob("examples/*.json")
}
CLOSED = {
    "key", "kind", "use", "position", "bedding", "pattern", "restraint", "soil", "locality", "format", "unit_of_length",
    "answer", "question", "pack_unit", "corner_kind", "fold", "reading", "material", "tolerance", "currency", "side",
}  # fmt: skip
"""Fields whose words the program gives, and free words that happen to be like a name."""
NAMED = (
    "measurements", "site", "areas", "steps", "units", "as_laid", "arrangements", "handed_over", "hold_checks", "dig_found",
    "set_ups", "units_read", "bags_used", "site_days", "photo_planes", "phone_slopes", "hose_tests", "drain_marks", "snags",
)  # fmt: skip
WORDS = (
    "edging", "cement", "kerb", "sub_base", "sharp_sand", "water", "disposal", "spoil", "dig", "units.1", "material",
    "mixed_pack.1", "lay", "lay_border", "base", "unit", "bed", "point", "Patio", "Front.Patio", "Back.Front.Patio",
    "cure_base", "sub_base.area1", "drains", "frames", "channel", "gully", "fold 1", "fold", "rest", "border", "none",
    "None", "0", "1", "-1", "north", "left", "house", "neighbour", "units with offcuts", "loads", "datum", "BM", "TBM1",
    "=1+1", "<b>", "a/b", "%", "ends", "\u00fc", "Patio.", ".Patio", "area", "area1", "all", "steps", "topsoil",
)  # fmt: skip
"""Words of the program and of its files, and names that end in each other."""


def names_of(part) -> set[str]:
    """Return every name and every point that a document declares."""
    if isinstance(part, list):
        return set().union(*map(names_of, part))
    if not isinstance(part, dict):
        return set()
    own = {value for key, value in part.items() if key in {"name", "start", "end", "point"} and isinstance(value, str)}
    return own.union(*(names_of(value) for value in part.values()))


def renamed(part, new: dict[str, str], key: str = ""):
    """Return a document with its names changed wherever they stand."""
    if isinstance(part, list):
        return [renamed(each, new, key) for each in part]
    if isinstance(part, dict):
        return {field: renamed(value, new, field) for field, value in part.items()}
    return new.get(part, part) if isinstance(part, str) and key not in CLOSED else part


OWNERS = {
    ("areas", "name"): "area", ("steps", "name"): "steps", ("units", "name"): "unit", ("zones", "name"): "zone",
    ("walls", "name"): "wall", ("outfalls", "name"): "outfall", ("gullies", "name"): "gully",
    ("channels", "name"): "channel", ("covers", "name"): "cover", ("obstacles", "name"): "obstacle",
    ("trees", "name"): "tree", ("boundaries", "name"): "boundary", ("tie_ins", "name"): "tie-in",
    ("services", "name"): "service", ("level_books", "name"): "book", ("openings", "name"): "opening",
    ("air_bricks", "name"): "air brick", ("steps", "upper_area"): "area", ("steps", "lower_area"): "area",
    ("gaps", "area"): "area", ("lips", "area"): "area", ("joints", "area"): "area",
    ("readings", "area"): "area", ("batches", "area"): "area", ("cover_keys", "cover"): "cover",
    ("batches", "unit"): "unit", ("spares", "unit"): "unit", ("hold_checks", "area"): "area", ("units_read", "area"): "area",
    ("bags_used", "area"): "area", ("dig_found", "area"): "area", ("hose_tests", "area"): "area", ("snags", "area"): "area",
    ("hold_checks", "name"): "hold check", ("dig_found", "name"): "find",
    ("site_days", "name"): "log of a day", ("present", "name"): "person", ("bays", "area"): "area",
    ("delivered", "area"): "area", ("delivered", "unit"): "unit",
    ("photo_planes", "name"): "photo", ("points", "by_photo"): "photo", ("photo_planes", "wall"): "wall", ("marks", "name"): "mark",
    ("things", "name"): "thing seen", ("phone_slopes", "name"): "slope",
    ("laying", "unit"): "unit", ("laying", "course_units"): "unit",
    ("border", "unit"): "unit", ("fall", "away_from"): "wall", ("fall", "gully"): "gully",
    ("gullies", "outfall"): "outfall", ("channels", "outfall"): "outfall",
}  # fmt: skip
"""Whose name stands in a field, by the list or the part that holds it; every other name is that of a point."""


def alike(part, new: dict[tuple[str, str], str], points: set[str], field: str = "", holder: str = ""):
    """Return a document in which the first of every kind has one name, the second another, and so on."""
    if isinstance(part, list):
        return [alike(each, new, points, field, holder) for each in part]
    if isinstance(part, dict):
        return {key: alike(value, new, points, key, field) for key, value in part.items()}
    owner = OWNERS.get((holder, field), "point")
    if not isinstance(part, str) or field in CLOSED or (owner == "point" and part not in points):
        return part
    number = sum(kind == owner for kind, _ in new)
    return new.setdefault((owner, part), WORDS[number] if number < len(WORDS) else f"{WORDS[0]}.{number}")


def figures(part, numbers: Counter) -> Counter:
    """Return every number of a plan with the field that it stands in, however they are ordered."""
    found = [(part, "")]
    while found:
        value, at = found.pop()
        if isinstance(value, dict):
            found += [(each, f"{at}.{field}") for field, each in value.items()]
        elif isinstance(value, list):
            found += [(each, at) for each in value]
        elif not isinstance(value, str):
            numbers[at, value] += 1
    return numbers


@functools.cache
def figures_of(example: str) -> Counter:
    return figures_of_document(EXAMPLES[example])


def figures_of_document(document) -> Counter:
    plan = json.loads(plan_json(make_plan(json.dumps(document))))
    del plan["job"]
    return figures(plan, Counter())


def nasty(names: list[str], turn: int) -> dict[str, str]:
    """Return another name for each: words of the program first, turned round, then names that end in each other."""
    words = WORDS[turn:] + WORDS[:turn]
    longer = (f"{first}.{second}" for first, second in itertools.permutations(words, 2))
    return dict(zip(names, itertools.chain(words, longer)))


@pytest.mark.parametrize("turn", [0, 13, 29])
@pytest.mark.parametrize("example", sorted(EXAMPLES))
def test_names_that_are_words_of_the_program_change_no_figure(example, turn):
    document = EXAMPLES[example]
    named = {part: document[part] for part in NAMED if part in document}
    new = nasty(sorted(names_of(list(named.values()))), turn)
    there = figures_of_document(document | renamed(named, new))
    here = figures_of(example)
    assert sorted((here - there).items(), key=repr)[:20] == sorted((there - here).items(), key=repr)[:20] == []


@pytest.mark.parametrize("example", sorted(EXAMPLES))
def test_things_of_every_kind_that_share_their_names_are_kept_apart(example):
    document = EXAMPLES[example]
    named = {part: document[part] for part in NAMED if part in document}
    points = {each["name"] for each in document["measurements"]["points"] + document["measurements"].get("offsets", [])}
    plan = document["measurements"].get("tape_plan")
    points |= {end for tape in plan["tapes"] for end in (tape["start"], tape["end"])} if plan else set()
    there = figures_of_document(document | alike(named, {}, points))
    here = figures_of(example)
    assert sorted((here - there).items(), key=repr)[:20] == sorted((there - here).items(), key=repr)[:20] == []
