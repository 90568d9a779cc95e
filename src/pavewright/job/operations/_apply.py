"""Operations applied to a document that may have changed since they were made: by rule, and nothing is lost."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from pavewright.job.operations._clashes import Clash, ClashKind
from pavewright.job.operations._items import ONCE, PLACES, SETS, UNIQUE, is_list_of_items, is_named
from pavewright.job.operations._names import fresh_name, kind_of, renamed, taken_names
from pavewright.job.operations._places import Places
from pavewright.job.operations._values import MISSING, alike, copied, same

if TYPE_CHECKING:
    from collections.abc import Hashable, Iterable

    from pavewright.job.operations._places import Found
    from pavewright.job.operations._rows import Row, Rows
    from pavewright.job.operations._values import Operation


@dataclass(frozen=True, slots=True)
class Applied:
    """What operations left.

    Attributes:
        document: The document with them.
        clashes: Those that could not be done, each with both values.
        landed: For each operation what was done in the document, with the names of the document.
        names: What things of a kind are called in the document, by the name that the sender gave them, where they differ.
    """

    document: dict[str, Any]
    clashes: tuple[Clash, ...]
    landed: tuple[tuple[Operation, ...], ...]
    names: dict[tuple[Hashable, str], str]


def apply(document: dict[str, Any], operations: Iterable[Operation]) -> Applied:
    """Apply operations one after the other; the document that was given stays as it is.

    Args:
        document: The document as it is now.
        operations: As a sender made them, perhaps on an older version of it.
    """
    work = _Work(copied(document))
    landed = tuple(tuple(work.do(operation)) for operation in operations)
    work.places.settle()
    return Applied(work.places.document, tuple(work.clashes), landed, work.names)


class _Work:
    """A document while operations are applied to it."""

    def __init__(self, document: dict[str, Any]) -> None:
        self.places = Places(document)
        self.clashes: list[Clash] = []
        self.names: dict[tuple[Hashable, str], str] = {}
        self._taken: dict[Hashable, set[str]] = {}

    def do(self, operation: Operation) -> list[Operation]:
        """Apply one operation and return what was done."""
        return self._one(renamed(operation, self.names))

    def _one(self, operation: Operation) -> list[Operation]:
        return {"set": self._set, "add": self._add, "remove": self._remove, "move": self._move}[operation["op"]](
            operation
        )

    def _clash(self, kind: ClashKind, operation: Operation, ours: Any = MISSING) -> list[Operation]:  # noqa: ANN401
        theirs = operation.get("to", MISSING) if operation["op"] == "set" else operation.get("item", MISSING)
        theirs = MISSING if operation["op"] == "remove" else theirs
        self.clashes.append(Clash(kind, operation, copied(ours), theirs))
        return []

    def _set(self, operation: Operation) -> list[Operation]:
        at, was, to = operation["at"], operation.get("was", MISSING), operation.get("to", MISSING)
        if isinstance(at[-1], dict):
            return self._set_item(operation)
        found = self.places.owner(at[:-1], make=to is not MISSING)
        if found is None:
            return [] if to is MISSING else self._clash(ClashKind.GONE, operation)
        current = self.places.settled(found.value.get(at[-1], MISSING))
        if alike(current, was) or ("was_now" in operation and alike(current, operation["was_now"])):
            return [self._put(operation, found, to)]
        if alike(current, to):
            return []
        parts = _parts(operation, current) if was in (None, MISSING, [], {}) else None
        if parts is None:
            return self._clash(ClashKind.VALUE, operation, current)
        return [done for part in parts for done in self._one(part)]

    def _put(self, operation: Operation, found: Found, to: Any) -> Operation:  # noqa: ANN401 - any JSON value
        at, owner = operation["at"], found.value
        if at[-1] == "name" and isinstance(to, str) and not operation.get("beside"):
            to = self._name_for(at, owner, to)
        if to is MISSING:
            owner.pop(at[-1], None)
        else:
            owner[at[-1]] = copied(to)
        self.places.known_anew(found.trail)
        return {**operation, "to": to} if "to" in operation else operation

    def _name_for(self, at: list[Any], owner: dict[str, Any], to: str) -> str:
        """Return the new name of a thing; a fresh one where another thing was given the same meanwhile."""
        list_at = at[:-2]
        rows = self.places.rows(list_at) if len(at) > 1 and isinstance(at[-2], dict) else None
        if rows is None or not is_named(rows.name, owner):
            return to
        others = [row for row in rows.equal_to({**owner, "name": to}) if row.item is not owner]
        return self._fresh(list_at, to, rows) if others else to

    def _set_item(self, operation: Operation) -> list[Operation]:
        at, to = operation["at"], operation.get("to", MISSING)
        rows = self.places.rows(at[:-1])
        row = rows.find(at[-1]) if rows is not None else None
        if rows is None or row is None:
            done = rows is not None and any(same(self.places.settled(each.item), to) for each in rows.equal_to(to))
            return [] if done else self._clash(ClashKind.GONE, operation)
        if not same(self.places.settled(row.item), operation.get("was", MISSING)):
            return self._clash(ClashKind.VALUE, operation, row.item)
        row.item = copied(to)
        rows.changed = True
        rows.known_anew(row)
        return [operation]

    def _add(self, operation: Operation) -> list[Operation]:
        at, item = operation["at"], operation["item"]
        found = self.places.owner(at[:-1], make=True)
        if found is None:
            return self._clash(ClashKind.GONE, operation)
        if found.value.get(at[-1]) is None:
            found.value[at[-1]] = []
        rows = self.places.rows_of(at[-1], found.value[at[-1]])
        if rows is None:
            return self._clash(ClashKind.VALUE, operation, found.value[at[-1]])
        if not operation.get("beside"):
            settled = self._meeting(operation, rows)
            if settled is None:
                return []
            item = settled
        after = operation.get("after", MISSING)
        place = rows.last if after is MISSING else None if after is None else rows.find(after) or rows.last
        rows.put_in(copied(item), place)
        if self._taken and is_named(rows.name, item):
            self._taken.get(kind_of(at), set()).add(item["name"])
        return [{**operation, "item": item}]

    def _meeting(self, operation: Operation, rows: Rows) -> Any | None:  # noqa: ANN401 - any JSON value
        """Return an item as it is added beside those that are known by the same; None where it is not added."""
        name, item = rows.name, operation["item"]
        equal = rows.equal_to(item)
        named = is_named(name, item)
        if equal and (named or name in UNIQUE | ONCE | SETS):
            if any(same(self.places.settled(row.item), item) for row in equal):
                return None
            if name in UNIQUE:
                self._clash(ClashKind.TAKEN, operation, equal[0].item)
                return None
        if named and (equal or self._placed_elsewhere(operation["at"], item["name"])):
            return {**item, "name": self._fresh(operation["at"], item["name"], rows)}
        return item

    def _placed_elsewhere(self, at: list[Any], name: str) -> bool:
        if at[-1] not in PLACES or len(at) < len(PLACES):
            return False
        lists = [self.places.rows([*at[:-1], other]) for other in PLACES if other != at[-1]]
        return any(rows is not None and rows.equal_to({"name": name}) for rows in lists)

    def _fresh(self, list_at: list[Any], name: str, rows: Rows) -> str:
        kind = kind_of(list_at)
        if kind not in self._taken:
            self.places.settle()
            self._taken[kind] = taken_names(self.places.document, list_at, rows.items)
        made = fresh_name(name, self._taken[kind])
        self._taken[kind].add(made)
        self.names[kind, name] = made
        return made

    def _remove(self, operation: Operation) -> list[Operation]:
        at, item = operation["at"], operation["item"]
        rows = self.places.rows(at)
        equal = rows.known_by(operation, item) if rows is not None else []
        nth = operation.get("nth", 0)
        if rows is None or nth >= len(equal):
            return []
        row = self._just_like([equal[nth], *equal], item)
        if row is None:
            return self._clash(ClashKind.CHANGED, operation, equal[nth].item)
        rows.take_out(row)
        return [operation]

    def _just_like(self, rows: list[Row], item: Any) -> Row | None:  # noqa: ANN401 - any JSON value
        return next((row for row in rows if same(self.places.settled(row.item), item)), None)

    def _move(self, operation: Operation) -> list[Operation]:
        rows = self.places.rows(operation["at"])
        row = rows.find(operation["item"]) if rows is not None else None
        if rows is None or row is None:
            return []
        rows.take_out(row)
        after = operation.get("after")
        rows.put_in(row.item, None if after is None else rows.find(after) or row.before)
        return [operation]


def _parts(operation: Operation, current: Any) -> list[Operation] | None:  # noqa: ANN401 - any JSON value
    """Return what two people began at once in its parts, so that they merge; None where it has none."""
    at, to = operation["at"], operation.get("to", MISSING)
    if isinstance(current, dict) and isinstance(to, dict):
        return [{"op": "set", "at": [*at, name], "to": each} for name, each in to.items()]
    if is_list_of_items(at[-1], current, to):
        return [{"op": "add", "at": at, "item": item} for item in to]
    return None
