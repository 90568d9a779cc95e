"""A clash that a person settles: what was sent is done after all."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from pavewright.job.operations._apply import apply
from pavewright.job.operations._clashes import ClashKind
from pavewright.job.operations._places import Places
from pavewright.job.operations._values import MISSING, copied

if TYPE_CHECKING:
    from pavewright.job.operations._values import Operation, Step


def taken_over(
    document: dict[str, Any], kind: ClashKind, operation: Operation, base: dict[str, Any]
) -> dict[str, Any] | None:
    """Return a document in which an operation that clashed is done.

    Args:
        document: The document as it is now; it stays so.
        kind: Why the operation was not done.
        operation: It, as it would have been done.
        base: The document that its sender saw: what is gone is brought back from there.

    Returns:
        The document; None where that to which the operation belongs is in neither of them.
    """
    made: dict[str, Any] | None = copied(document)
    if kind is ClashKind.GONE:
        made = _with_what_is_gone(document, operation["at"], base)
    if made is None:
        return None
    places = Places(made)
    if operation["op"] == "set":
        operation = _on_what_stands(places, operation)
    elif kind is ClashKind.CHANGED:
        operation = _of_what_stands(places, operation)
    elif kind is ClashKind.TAKEN:
        _make_room(places, operation)
    places.settle()
    done = apply(made, [operation])
    return None if done.clashes else done.document


def _on_what_stands(places: Places, operation: Operation) -> Operation:
    """Return an operation that sets as one that has seen what stands there now."""
    at = operation["at"]
    plain = {name: value for name, value in operation.items() if name != "was"}
    if isinstance(at[-1], dict):
        rows = places.rows(at[:-1])
        row = None if rows is None else rows.find(at[-1])
        return operation if row is None else {**plain, "was": copied(row.item)}
    owner = places.owner(at[:-1])
    current = MISSING if owner is None else owner.value.get(at[-1], MISSING)
    return plain if current is MISSING else {**plain, "was": copied(current)}


def _of_what_stands(places: Places, operation: Operation) -> Operation:
    """Return an operation that removes as one that has seen the item as it is now."""
    rows = places.rows(operation["at"])
    equal = [] if rows is None else rows.known_by(operation, operation["item"])
    nth = min(operation.get("nth", 0), len(equal) - 1)
    return operation if not equal else {**operation, "item": copied(equal[nth].item), "nth": nth}


def _make_room(places: Places, operation: Operation) -> None:
    rows = places.rows(operation["at"])
    for row in [] if rows is None else list(rows.equal_to(operation["item"])):
        if rows is not None:
            rows.take_out(row)


def _with_what_is_gone(document: dict[str, Any], at: list[Step], base: dict[str, Any]) -> dict[str, Any] | None:
    """Return a document into which the outermost thing that is gone was brought back; None where nobody has it."""
    made: dict[str, Any] = copied(document)
    here, there = Places(made), Places(copied(base))
    for place, step in enumerate(at):
        if not isinstance(step, dict):
            continue
        rows, before = here.rows(at[:place]), there.rows(at[:place])
        if rows is not None and rows.find(step) is not None:
            continue
        row = None if before is None else before.find(step)
        owner = here.owner(at[: place - 1], make=True)
        if row is None or owner is None:
            return None
        add: Operation = {"op": "add", "at": at[:place], "item": row.item}
        return apply(made, [add]).document
    return made
