"""Operations that bring back what other operations changed."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from pavewright.job.operations._items import selector_of, with_nth
from pavewright.job.operations._values import MISSING

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.job.operations._values import Operation, Step


def inverse(operations: Sequence[Operation]) -> list[Operation]:
    """Return the operations that bring a document back to what it was before these, the last one first."""
    return [_of_one(operation) for operation in reversed(operations)]


def _of_one(operation: Operation) -> Operation:
    return {"set": _of_set, "add": _of_add, "remove": _of_remove, "move": _of_move}[operation["op"]](operation)


def _of_set(operation: Operation) -> Operation:
    at: list[Step] = list(operation["at"])
    nth = 0
    place = len(at) - 1 if isinstance(at[-1], dict) else len(at) - 2
    if place >= 0 and isinstance(at[place], dict):
        step: Any = at[place]
        then = selector_after(operation, str(at[place - 1]), step)
        if then is not None:
            nth = step.get("nth", 0)
            at[place] = with_nth(then, operation.get("nth", 0))
    made: Operation = {"op": "set", "at": at}
    if "to" in operation:
        made["was"] = operation["to"]
    if "was" in operation:
        made["to"] = operation["was"]
    if operation.get("was_beside"):
        made["beside"] = True
    if operation.get("beside"):
        made["was_beside"] = True
    return with_nth(made, nth)


def selector_after(operation: Operation, name: str, step: dict[str, Any]) -> dict[str, Any] | None:
    """Return what makes an item known after one of its fields was set; None where it is the same as before."""
    to, field = operation.get("to", MISSING), operation["at"][-1]
    if "then" in operation:
        then: dict[str, Any] = operation["then"]
        return then
    if isinstance(field, dict):
        return selector_of(name, to)
    if "is" in step:
        changed = {each: value for each, value in step["is"].items() if each != field}
        return selector_of(name, changed if to is MISSING else changed | {field: to})
    return {**step, field: to} if field in step else None


def _of_add(operation: Operation) -> Operation:
    return {**operation, "op": "remove"}


def _of_remove(operation: Operation) -> Operation:
    return {**operation, "op": "add"}


def _of_move(operation: Operation) -> Operation:
    item: dict[str, Any] = operation["item"]
    plain = {name: value for name, value in item.items() if name != "nth"}
    made: Operation = {"op": "move", "at": operation["at"], "item": with_nth(plain, operation.get("nth", 0))}
    made |= {"after": operation.get("was_after"), "was_after": operation.get("after")}
    return with_nth(made, item.get("nth", 0))
