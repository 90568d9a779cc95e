"""Jobs that somebody spoilt: the examples with fields deleted, swapped, doubled, emptied or set to what nobody measures.

The same seed gives the same job on every machine.
"""

from __future__ import annotations

import copy
import json
import random
from dataclasses import dataclass
from pathlib import Path
from typing import Any

EXAMPLES = Path(__file__).parents[2] / "examples"
NUMBERS = (
    0,
    -1,
    1,
    2,
    1e-9,
    1e-6,
    0.5,
    25.0,
    1000.0,
    1e6,
    -1e6,
    1e7,
    -1e7,
    9_999_999,
    1e15,
    -1e15,
    1e300,
    5e-324,
    2**31,
    2**63,
    10**30,
)
SHARES = (0.0, -1.0, 0.001, 0.1, 0.5, 0.9, 0.999, 1.001, 1.1, 2.0, 10.0, 1000.0)
WORDS = (
    "",
    " ",
    "A",
    "none",
    "England",
    "\u202e",
    "x" * 60,
    "x" * 61,
    "x" * 2001,
    "nan",
    "1e9",
    "Infinity",
    "2027-02-30",
    "0001-01-01",
    "9999-12-30",
    "9999-12-31",
    "2027-06-01",
    "=1+1",
    "B\n",
)
KINDS: tuple[object, ...] = (None, True, False, [], {}, "", 0, -1, 1.5, "A", [None], [[]], [1, 2], {"a": 1}, [{}])
MAX_COPIES = 40
"""How often an entry is repeated at most: within what lists of a job hold."""


@dataclass(frozen=True)
class Mutated:
    """A spoilt job, and what was done to it."""

    name: str
    text: str


def examples() -> dict[str, dict[str, Any]]:
    """Return the jobs to spoil."""
    return {file.stem: json.loads(file.read_text("utf-8")) for file in sorted(EXAMPLES.glob("*.json"))}


def mutated(sound: dict[str, dict[str, Any]], seed: int) -> Mutated:
    """Return one of the sound jobs with one to three things done to it."""
    dice = random.Random(seed)
    name = dice.choice(sorted(sound))
    document = copy.deepcopy(sound[name])
    done = [dice.choice(_WAYS)(document, dice) for _ in range(dice.choice((1, 1, 1, 1, 2, 3)))]
    return Mutated(f"{seed} {name}: {'; '.join(done)}", json.dumps(document))


def _fields(value: Any, path: tuple[str | int, ...] = ()) -> list[tuple[str | int, ...]]:
    """Return the place of everything in a document."""
    found = []
    inner = value.items() if isinstance(value, dict) else enumerate(value) if isinstance(value, list) else ()
    for key, each in inner:
        place = (*path, key)
        found.append(place)
        found += _fields(each, place)
    return found


def _at(document: Any, path: tuple[str | int, ...]) -> Any:
    for key in path:
        document = document[key]
    return document


def _one(document: dict[str, Any], dice: random.Random, kind: type | tuple[type, ...]) -> tuple[Any, Any, str]:
    """Return what holds a field of a kind, its key there, and its place in words."""
    fitting = [
        path
        for path in _fields(document)
        if isinstance(_at(document, path), kind) and not isinstance(_at(document, path), bool)
    ]
    if not fitting:
        document["x"] = 1
        fitting = [("x",)]
    # lists of like entries would take every throw: the field is chosen first, then the entry
    heads = sorted({_head(path) for path in fitting})
    head = dice.choice(heads)
    path = dice.choice([each for each in fitting if _head(each) == head])
    return _at(document, path[:-1]), path[-1], ".".join(map(str, path))


def _head(path: tuple[str | int, ...]) -> tuple[str, ...]:
    return tuple("*" if isinstance(key, int) else key for key in path)


def _delete(document: dict[str, Any], dice: random.Random) -> str:
    holder, key, words = _one(document, dice, object)
    del holder[key]
    return f"no {words}"


def _other_kind(document: dict[str, Any], dice: random.Random) -> str:
    holder, key, words = _one(document, dice, object)
    holder[key] = copy.deepcopy(dice.choice(KINDS))
    return f"{words} = {holder[key]!r}"


def _number(document: dict[str, Any], dice: random.Random) -> str:
    holder, key, words = _one(document, dice, (int, float))
    holder[key] = dice.choice(NUMBERS)
    return f"{words} = {holder[key]!r}"


def _share(document: dict[str, Any], dice: random.Random) -> str:
    holder, key, words = _one(document, dice, (int, float))
    value = holder[key] * dice.choice(SHARES)
    holder[key] = round(value) if isinstance(holder[key], int) else value
    return f"{words} = {holder[key]!r}"


def _like_another(document: dict[str, Any], dice: random.Random) -> str:
    """Set a number to one that stands elsewhere: lengths that come out equal, lines that fall onto each other."""
    holder, key, words = _one(document, dice, (int, float))
    other, there, _ = _one(document, dice, (int, float))
    value = other[there] + dice.choice((0, 0, 0, 1e-9, 1e-6, -1e-6, 0.001))
    holder[key] = round(value) if isinstance(holder[key], int) else value
    return f"{words} = {holder[key]!r}"


def _word(document: dict[str, Any], dice: random.Random) -> str:
    holder, key, words = _one(document, dice, str)
    holder[key] = dice.choice(WORDS)
    return f"{words} = {holder[key][:20]!r}"


def _name_of_another(document: dict[str, Any], dice: random.Random) -> str:
    holder, key, words = _one(document, dice, str)
    other, there, _ = _one(document, dice, str)
    holder[key], other[there] = (other[there], holder[key]) if dice.random() < 0.5 else (other[there], other[there])
    return f"{words} = {holder[key]!r}"


def _list(document: dict[str, Any], dice: random.Random) -> tuple[list[Any], str]:
    holder, key, words = _one(document, dice, list)
    return (holder[key] if isinstance(holder[key], list) else []), words


def _double(document: dict[str, Any], dice: random.Random) -> str:
    found, words = _list(document, dice)
    if found:
        found.insert(dice.randrange(len(found) + 1), copy.deepcopy(dice.choice(found)))
    return f"one more of {words}"


def _many(document: dict[str, Any], dice: random.Random) -> str:
    """Repeat an entry under names of its own, a little off its place."""
    found, words = _list(document, dice)
    count = dice.choice((3, 10, MAX_COPIES))
    if found:
        sound = dice.choice(found)
        for number in range(count):
            entry = copy.deepcopy(sound)
            if isinstance(entry, dict):
                entry |= {key: f"{entry[key]} {number}" for key in ("name", "job") if isinstance(entry.get(key), str)}
                entry |= {
                    key: entry[key] + number * dice.choice((0.0, 1e-3, 100.0))
                    for key in ("x_mm", "y_mm", "along_mm")
                    if isinstance(entry.get(key), float)
                }
            found.append(entry)
    return f"{count} more of {words}"


def _empty(document: dict[str, Any], dice: random.Random) -> str:
    found, words = _list(document, dice)
    found.clear()
    return f"{words} empty"


def _turn(document: dict[str, Any], dice: random.Random) -> str:
    found, words = _list(document, dice)
    dice.choice((found.reverse, lambda: dice.shuffle(found)))()
    return f"{words} in another order"


def _swap(document: dict[str, Any], dice: random.Random) -> str:
    found, words = _list(document, dice)
    if len(found) > 1:
        one, other = dice.sample(range(len(found)), 2)
        found[one], found[other] = found[other], found[one]
    return f"{words} swapped"


def _more_field(document: dict[str, Any], dice: random.Random) -> str:
    holder, key, words = _one(document, dice, dict)
    holder[key][dice.choice(("x", "", "name", "note", "__class__"))] = dice.choice(KINDS)
    return f"another field in {words}"


_WAYS = (
    _delete,
    _other_kind,
    _number,
    _number,
    _share,
    _share,
    _share,
    _like_another,
    _like_another,
    _word,
    _name_of_another,
    _name_of_another,
    _double,
    _many,
    _empty,
    _turn,
    _swap,
    _more_field,
)
