"""What a sender calls by older names is found under the present ones: renames since are followed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from pavewright.job.operations._inverse import selector_after
from pavewright.job.operations._items import selector_of
from pavewright.job.operations._names import kind_of, renamed, renamed_item
from pavewright.job.operations._values import known, same

if TYPE_CHECKING:
    from collections.abc import Hashable, Iterable, Sequence

    from pavewright.job.operations._values import Operation, Step


@dataclass(frozen=True, slots=True)
class Done:
    """What was done to a document in one step.

    Attributes:
        landed: For each operation what was done, with the names of the document.
        sent: The operations as their sender made them, where he is the one who sends again; None where another did.
    """

    landed: tuple[tuple[Operation, ...], ...]
    sent: tuple[Operation, ...] | None = None


class Following:
    """What things of a document are called now, by what one sender calls them.

    The sender's view is the document at one revision with what he himself did since; lists are written here by the
    steps of that view, so that an item is found whatever happened to what it belongs to.
    """

    def __init__(self) -> None:
        """Know of no change."""
        self._names: dict[tuple[Hashable, str], str] = {}
        self._now: dict[tuple[Hashable, Hashable], dict[str, Any]] = {}
        self._then: dict[tuple[Hashable, Hashable], dict[str, Any]] = {}

    def after(self, steps: Iterable[Done]) -> Following:
        """Take in what was done, in its order, and return itself."""
        for step in steps:
            for number, landed in enumerate(step.landed):
                if step.sent is None:
                    for operation in landed:
                        self._of_another(operation)
                else:
                    self._own(step.sent[number], landed)
        return self

    def followed(self, operation: Operation) -> Operation:
        """Return an operation of the sender as it is to be done in the present document."""
        if not self._names and not self._now:
            return operation
        at, view = self._present(operation["at"])
        made = {**renamed(operation, self._names), "at": at}
        if operation["op"] == "set" and not same(made.get("was"), operation.get("was")):
            # whoever renamed it may have left what names it as it was
            made |= {"was": operation["was"], "was_now": made["was"]}
        if operation["op"] == "remove":
            made["item"] = operation["item"]
        if operation["op"] != "set":
            for part in ("after", "was_after", "item") if operation["op"] == "move" else ("after", "was_after"):
                if isinstance(operation.get(part), dict):
                    made[part] = self._selector(view, operation[part])
        if operation["op"] == "remove":
            present = self._now.get((known(view), _plain(selector_of(str(at[-1]), operation["item"]))))
            if present is not None:
                made["known_as"] = present
        return made

    def entry(self, given: dict[str, Any]) -> dict[str, Any]:
        """Return a reading of the sender with the names that points, areas and books have now."""
        found: dict[str, Any] = renamed_item(["entries"], given, self._names)
        return found

    def _present(self, at: Sequence[Step]) -> tuple[list[Step], list[Step]]:
        """Return a place of the sender's view in the present document, and in the view."""
        view: list[Step] = []
        present: list[Step] = []
        for step in at:
            present.append(step if isinstance(step, str) else self._selector(view, step))
            view.append(step if isinstance(step, str) else _without_nth(step))
        return present, view

    def _selector(self, view: Sequence[Step], step: dict[str, Any]) -> dict[str, Any]:
        present = self._now.get((known(list(view)), _plain(step)))
        return step if present is None else present | ({"nth": step["nth"]} if "nth" in step else {})

    def _view(self, at: Sequence[Step]) -> list[Step]:
        """Return a place of the present document in the sender's view."""
        view: list[Step] = []
        for step in at:
            then = step if isinstance(step, str) else self._then.get((known(view), _plain(step)))
            view.append(_without_nth(step) if then is None and isinstance(step, dict) else then or step)
        return view

    def _of_another(self, operation: Operation) -> None:
        """Take in an operation of another: what it changed of that by which an item is known."""
        at = operation["at"]
        place, then = known_since(operation)
        if then is None:
            return
        view = self._view(at[: place + 1])
        self._pair(view[:-1], view[-1], at[place], then)
        before, name = at[place], then.get("name")
        if isinstance(name, str) and isinstance(before.get("name"), str):
            self._renamed_by_another(kind_of(view[:-1]), before["name"], name)

    def _renamed_by_another(self, kind: Hashable, before: str, name: str) -> None:
        called = [key for key, present in self._names.items() if key[0] == kind and present == before]
        for key in called or [(kind, before)]:
            self._names[key] = name

    def _own(self, sent: Operation, landed: Sequence[Operation]) -> None:
        """Take in an operation of the sender: what he calls a thing since, and what it is called in the document."""
        if sent["op"] == "add":
            self._own_add(sent, landed)
            return
        place, then = known_since(sent)
        if then is None:
            return
        _, view = self._present(sent["at"][: place + 1])
        known_then: Any = view[-1]
        present = self._selector(view[:-1], known_then)
        for operation in landed:
            where, since = known_since(operation)
            present = since if since is not None and where == place else present
        self._pair(view[:-1], view[-1], None, present, then)
        self._called(kind_of(view[:-1]), then, present)

    def _own_add(self, sent: Operation, landed: Sequence[Operation]) -> None:
        name = str(sent["at"][-1])
        _, view = self._present(sent["at"])
        then = selector_of(name, sent["item"])
        for operation in landed:
            if operation["op"] == "add":
                present = selector_of(name, operation["item"])
                self._pair(view, then, None, present, then)
                self._called(kind_of(view), then, present)

    def _called(self, kind: Hashable, then: dict[str, Any], present: dict[str, Any]) -> None:
        mine, theirs = then.get("name"), present.get("name")
        if not isinstance(mine, str) or not isinstance(theirs, str):
            return
        if mine == theirs:
            self._names.pop((kind, mine), None)
        else:
            self._names[kind, mine] = theirs

    def _pair(
        self,
        view: Sequence[Step],
        before: Any,  # noqa: ANN401 - a selector
        present_before: Any | None,  # noqa: ANN401 - a selector
        present: dict[str, Any],
        then: dict[str, Any] | None = None,
    ) -> None:
        """Let an item of the sender's view be found by what makes it known in the document now."""
        here = known(list(view))
        if present_before is not None:
            self._then.pop((here, _plain(present_before)), None)
        if then is not None:
            self._now.pop((here, _plain(before)), None)
        called = _without_nth(then or before)
        self._now.pop((here, _plain(called)), None)
        if not same(called, present):
            self._now[here, _plain(called)] = present
            self._then[here, _plain(present)] = called


def known_since(operation: Operation) -> tuple[int, dict[str, Any] | None]:
    """Return which step of an operation makes known the item that it changes, and by what that is known since."""
    at = operation["at"]
    if operation["op"] != "set":
        return 0, None
    place = len(at) - 1 if isinstance(at[-1], dict) else len(at) - 2
    if place < 1 or not isinstance(at[place], dict):
        return 0, None
    return place, selector_after(operation, str(at[place - 1]), at[place])


def _without_nth(selector: dict[str, Any]) -> dict[str, Any]:
    return {name: value for name, value in selector.items() if name != "nth"}


def _plain(selector: dict[str, Any]) -> Hashable:
    return known(_without_nth(selector))
