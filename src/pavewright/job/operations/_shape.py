"""Operations as they come from outside: whether they are ones, and not more than a job can hold."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any, NoReturn

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.job.operations._values import Operation

_MOST = 5000
"""Most operations of one batch: a point file brought in is one."""
_DEEPEST = 12
_NAME_MAX = 60
_FIELDS: Mapping[str, frozenset[str]] = {
    "set": frozenset({"op", "at", "was", "to", "nth", "then", "beside", "was_beside", "was_now"}),
    "add": frozenset({"op", "at", "item", "after", "nth", "beside"}),
    "remove": frozenset({"op", "at", "item", "after", "nth", "beside", "known_as"}),
    "move": frozenset({"op", "at", "item", "after", "was_after", "nth"}),
}


class OperationRefusedError(ValueError):
    """Something that was sent is no operation; the message says what is wrong with it."""


def checked_operations(given: Any) -> list[Operation]:  # noqa: ANN401 - any JSON value
    """Return operations that were sent.

    Raises:
        OperationRefusedError: they are none.
    """
    if not isinstance(given, list) or not 1 <= len(given) <= _MOST:
        _refuse(f"operations is to be a list of 1 to {_MOST}.")
    for each in given:
        _check(each)
    return given


def _refuse(message: str) -> NoReturn:
    raise OperationRefusedError(message)


def _check(given: Any) -> None:  # noqa: ANN401 - any JSON value
    kind = given.get("op") if isinstance(given, dict) else None
    if not isinstance(kind, str) or kind not in _FIELDS:
        _refuse("An operation is to set, add, remove or move.")
    if not given.keys() <= _FIELDS[kind]:
        _refuse(f"An operation that is to {kind} has the fields {', '.join(sorted(_FIELDS[kind]))}.")
    _check_place(given.get("at"), ends_in_field=kind != "set")
    nth = given.get("nth", 0)
    if not isinstance(nth, int) or isinstance(nth, bool) or nth < 0:
        _refuse("nth is to be a whole number from 0.")
    if kind == "set" and "was" not in given and "to" not in given:
        _refuse("An operation that sets says what was there, or what is to be.")
    if kind != "set" and "item" not in given:
        _refuse(f"An operation that is to {kind} needs its item.")
    if kind == "move" and not _is_selector(given["item"]):
        _refuse("What is moved is named by what makes it known.")
    for name in ("after", "was_after", "then", "known_as"):
        if given.get(name) is not None and not _is_selector(given[name]):
            _refuse(f"{name} is to name an item by what makes it known.")


def _check_place(at: Any, *, ends_in_field: bool) -> None:  # noqa: ANN401 - any JSON value
    if not isinstance(at, list) or not 1 <= len(at) <= _DEEPEST or not isinstance(at[0], str):
        _refuse(f"at is to be a list of 1 to {_DEEPEST} steps that starts with a field.")
    for number, step in enumerate(at):
        if isinstance(step, str):
            if not 1 <= len(step) <= _NAME_MAX or step[:2] == "__":
                _refuse("A step names a field of the job document.")
        elif not _is_selector(step) or not isinstance(at[number - 1], str):
            _refuse("A step is a field, or what makes an item of the list before it known.")
        elif "is" in step and number < len(at) - 2:
            _refuse("An item that is known by its whole is changed field by field.")
    if ends_in_field and not isinstance(at[-1], str):
        _refuse("at is to end in the name of a list.")


def _is_selector(given: Any) -> bool:  # noqa: ANN401 - any JSON value
    if not isinstance(given, dict) or not given.keys() - {"nth"}:
        return False
    nth = given.get("nth", 0)
    return isinstance(nth, int) and not isinstance(nth, bool) and nth >= 0
