"""A list of items while operations are applied: found, put in and taken out without walking through it each time."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from pavewright.job.operations._items import KEYS, key_in, key_of
from pavewright.job.operations._values import same

if TYPE_CHECKING:
    from collections.abc import Hashable, Iterator

    from pavewright.job.operations._values import Operation


class Row:
    """One item in its place."""

    __slots__ = ("after", "before", "item", "key")

    def __init__(self, item: Any, key: Hashable) -> None:  # noqa: ANN401 - any JSON value
        """Stand alone."""
        self.item, self.key = item, key
        self.before: Row = self
        self.after: Row = self


class Rows:
    """The items of one list, each with its neighbours, and found by what makes it known."""

    def __init__(self, name: str, items: list[Any]) -> None:
        """Take the items; the list is written to by ``settle`` alone."""
        self.name, self.items = name, items
        self.changed = False
        self._end = Row(None, None)
        self._equal: dict[Hashable, list[Row]] = {}
        for item in items:
            self._link(Row(item, key_of(name, item)), self._end.before)

    def __iter__(self) -> Iterator[Row]:
        """Go through the rows in their order."""
        row = self._end.after
        while row is not self._end:
            yield row
            row = row.after

    @property
    def last(self) -> Row:
        """The last row; the end itself where there is none."""
        return self._end.before

    def _link(self, row: Row, before: Row) -> None:
        equal = self._equal.setdefault(row.key, [])
        row.before, row.after = before, before.after
        before.after.before = row
        before.after = row
        equal.append(row)
        if len(equal) > 1 and row.after is not self._end:
            self._in_order(row.key)

    def _in_order(self, key: Hashable) -> None:
        self._equal[key] = [row for row in self if row.key == key]

    def find(self, selector: dict[str, Any]) -> Row | None:
        """Return the row that a selector means, None where there is none."""
        nth = selector.get("nth", 0)
        found = self._equal.get(key_in(selector), [])
        if not found and not selector.keys() - {"nth"} <= {"is", *KEYS.get(self.name, ("name",))}:
            found = [row for row in self if _meets(row.item, selector)]
        return found[nth] if nth < len(found) else found[-1] if found else None

    def equal_to(self, item: Any) -> list[Row]:  # noqa: ANN401 - any JSON value
        """Return the rows that are known by the same as an item."""
        return self._equal.get(key_of(self.name, item), [])

    def known_by(self, operation: Operation, item: Any) -> list[Row]:  # noqa: ANN401 - any JSON value
        """Return the rows that are known by the same as an item, or by what it is known by since."""
        since = operation.get("known_as")
        return self.equal_to(item) if since is None else self._equal.get(key_in(since), [])

    def put_in(self, item: Any, after: Row | None) -> Row:  # noqa: ANN401 - any JSON value
        """Put an item after a row; None for the front."""
        row = Row(item, key_of(self.name, item))
        self._link(row, self._end if after is None else after)
        self.changed = True
        return row

    def take_out(self, row: Row) -> None:
        """Take a row out."""
        row.before.after, row.after.before = row.after, row.before
        self._equal[row.key].remove(row)
        self.changed = True

    def known_anew(self, row: Row) -> None:
        """Find a row by what it holds now."""
        key = key_of(self.name, row.item)
        if key == row.key:
            return
        self._equal[row.key].remove(row)
        row.key = key
        equal = self._equal.setdefault(key, [])
        equal.append(row)
        if len(equal) > 1:
            self._in_order(key)

    def settle(self) -> None:
        """Write the items back into their list."""
        if self.changed:
            self.items[:] = [row.item for row in self]
            self.changed = False


def _meets(item: Any, selector: dict[str, Any]) -> bool:  # noqa: ANN401 - any JSON value
    return isinstance(item, dict) and all(
        name in item and same(item[name], value) for name, value in selector.items() if name != "nth"
    )
