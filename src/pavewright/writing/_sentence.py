"""Sentences of a room, kept in one catalogue: their words, with named places for what differs from job to job."""

from __future__ import annotations

from dataclasses import dataclass
from string import Formatter


@dataclass(frozen=True, slots=True)
class Sentence:
    """A sentence with named places: the same names in every language, in whatever order they stand there.

    Attributes:
        pattern: Its words, a name in braces at each place.

    >>> Sentence("Read {day} by {who}.")(day="Fri 4 Jun 2027", who="J")
    'Read Fri 4 Jun 2027 by J.'
    """

    pattern: str

    @property
    def places(self) -> frozenset[str]:
        """The names of its places."""
        return frozenset(name for _, name, _, _ in Formatter().parse(self.pattern) if name)

    def __call__(self, **said: str | int) -> str:
        """Return the sentence with what differs; every place is filled and nothing else is given.

        Raises:
            TypeError: a place is left empty, or something has no place.
        """
        if said.keys() != self.places:
            message = f"{self.pattern!r} takes {sorted(self.places)} and was given {sorted(said)}"
            raise TypeError(message)
        return self.pattern.format_map(said)


@dataclass(frozen=True, slots=True)
class Catalogue:
    """The sentences of a room in one language: a field for each, so that another language is one more of these."""
