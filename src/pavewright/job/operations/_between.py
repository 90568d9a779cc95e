"""What was done to a document: the operations that make the later one of the earlier one."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from pavewright.job.operations._items import is_list_of_items, names_elsewhere, selector_of
from pavewright.job.operations._matching import Matched, Standing, matched, staying
from pavewright.job.operations._values import MISSING, same

if TYPE_CHECKING:
    from pavewright.job.operations._values import Operation, Step


def between(before: dict[str, Any], after: dict[str, Any]) -> list[Operation]:
    """Return the operations that make one document of another; applied to the first they give the second."""
    found: list[Operation] = []
    _fields(found, [], before, after)
    return found


def _fields(found: list[Operation], at: list[Step], before: dict[str, Any], after: dict[str, Any]) -> None:
    for name in [*before, *(name for name in after if name not in before)]:
        was, to = before.get(name, MISSING), after.get(name, MISSING)
        if isinstance(was, list) and is_list_of_items(name, was, to):
            _list(found, [*at, name], (was, to), names_elsewhere(name, before, after))
        else:
            _value(found, [*at, name], was, to)


def _value(found: list[Operation], at: list[Step], was: Any, to: Any) -> None:  # noqa: ANN401 - any JSON values
    if same(was, to):
        return
    name = at[-1]
    if isinstance(was, dict) and isinstance(to, dict):
        _fields(found, at, was, to)
    elif isinstance(name, str) and is_list_of_items(name, was, to):
        _list(found, at, (was, to), frozenset())
    else:
        found.append(_set(at, was, to))


def _set(at: list[Step], was: Any, to: Any) -> Operation:  # noqa: ANN401 - any JSON values
    made: Operation = {"op": "set", "at": at}
    if was is not MISSING:
        made["was"] = was
    if to is not MISSING:
        made["to"] = to
    return made


def _list(
    found: list[Operation], at: list[Step], lists: tuple[list[Any], list[Any]], elsewhere: frozenset[str]
) -> None:
    """Give what was done to a list: what went, what was changed, what changed its place, what came."""
    before, after = lists
    if same(before, after):
        return
    name = str(at[-1])
    pairs = matched(name, before, after)
    standing = Standing(name, before, elsewhere)
    _removes(found, at, standing, pairs)
    kept = sorted(pairs.place_of)
    for place, index in enumerate(kept):
        _changes(found, at, standing, place, after[pairs.place_of[index]])
    _moves(found, at, standing, [pairs.place_of[index] for index in kept])
    _adds(found, at, standing, pairs, after)


def _removes(found: list[Operation], at: list[Step], standing: Standing, pairs: Matched) -> None:
    for index in range(len(standing.items) - 1, -1, -1):
        if index in pairs.place_of:
            continue
        made: Operation = {"op": "remove", "at": at, "item": standing.items[index], **standing.among_equals(index)}
        last = index == len(standing.items) - 1
        standing.remove(index)
        found.append(made if last else made | {"after": standing.selector_before(index)})


def _changes(found: list[Operation], at: list[Step], standing: Standing, place: int, after: Any) -> None:  # noqa: ANN401
    """Give the changes of one item; those that change what makes it known one after the other."""
    item = standing.items[place]
    if same(item, after):
        return
    if not isinstance(item, dict):
        _one(found, [*at, standing.selector(place)], standing, place, (item, after, after))
        return
    within: list[str] = []
    for field in [*item, *(field for field in after if field not in item)]:
        was, to = item.get(field, MISSING), after.get(field, MISSING)
        if same(was, to):
            continue
        present = standing.items[place]
        changed = {each: value for each, value in present.items() if each != field}
        changed |= {} if to is MISSING else {field: to}
        selector = selector_of(standing.name, present)
        if "is" not in selector and same(selector, selector_of(standing.name, changed)):
            within.append(field)
        else:
            _one(found, [*at, standing.selector(place), field], standing, place, (was, to, changed))
    present = standing.items[place]
    for field in within:
        _value(found, [*at, standing.selector(place), field], present.get(field, MISSING), after.get(field, MISSING))
    standing.put(place, after)


def _one(found: list[Operation], at: list[Step], standing: Standing, place: int, values: tuple[Any, Any, Any]) -> None:
    """Give one change after which the item is known by something else."""
    was, to, changed = values
    made = _set(at, was, to)
    selector = selector_of(standing.name, standing.items[place])
    if standing.among_equals(place):
        made["was_beside"] = True
    standing.put(place, changed)
    then = selector_of(standing.name, changed)
    if "is" not in selector and then.keys() != selector.keys():
        made["then"] = then
    found.append(made | standing.among_equals(place))


def _moves(found: list[Operation], at: list[Step], standing: Standing, order: list[int]) -> None:
    """Give the moves that bring what is kept into its order: as few as can be."""
    stay, goals = staying(order), sorted(order)
    for rank, goal in enumerate(goals):
        if goal in stay:
            continue
        place = order.index(goal)
        made: Operation = {"op": "move", "at": at, "item": standing.selector(place)}
        made["was_after"] = standing.selector_before(place)
        item = standing.remove(place)
        order.pop(place)
        to = 0 if rank == 0 else order.index(goals[rank - 1]) + 1
        made["after"] = standing.selector_before(to)
        nth = standing.insert(to, item)
        order.insert(to, goal)
        found.append(made | {"nth": nth} if nth else made)


def _adds(found: list[Operation], at: list[Step], standing: Standing, pairs: Matched, after: list[Any]) -> None:
    taken = set(pairs.place_of.values())
    last = max(taken, default=-1)
    for place, item in enumerate(after):
        if place in taken:
            continue
        made: Operation = {"op": "add", "at": at, "item": item}
        if place < last:
            made["after"] = standing.selector_before(place)
        standing.insert(place, item)
        found.append(made | standing.among_equals(place))
