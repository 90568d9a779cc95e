"""The shapes of keys: what a room calls a thing inside the program, never a word that somebody typed."""

from __future__ import annotations

from abc import ABC, abstractmethod
from dataclasses import dataclass
from enum import StrEnum
from typing import ClassVar, Generic, TypeVar

Kind = TypeVar("Kind", bound=StrEnum)


class Key(ABC):
    """A key of the program; each kind of key is a class of its own, so that two of different kinds are never equal."""

    __slots__ = ()

    @property
    @abstractmethod
    def text(self) -> str:
        """Its name for files and pages; no two keys of one class share one."""


@dataclass(frozen=True, slots=True)
class NumberedKey(Key, Generic[Kind]):
    """Key of one of several things of a kind.

    Attributes:
        kind: Kind of thing.
        number: Which of them, from 0.
    """

    BEFORE: ClassVar[str] = ""
    """What stands before the kind in the name."""
    kind: Kind
    number: int = 0

    @property
    def text(self) -> str:
        """Its name for files and pages: its kind and its number from 1."""
        return f"{self.BEFORE}{self.kind.value}.{self.number + 1}"


@dataclass(frozen=True, slots=True)
class PlacedKey(Key, Generic[Kind]):
    """Key of something in an area, or on the whole site.

    Attributes:
        kind: Kind of thing.
        area: Place of its area in the job, from 0; None for the whole site.
        number: Which of several of one kind in one area, from 0.
    """

    kind: Kind
    area: int | None = None
    number: int = 0

    @property
    def text(self) -> str:
        """Its name for files and pages: its kind, its area and its number from 1."""
        parts = [self.kind.value]
        if self.area is not None:
            parts.append(f"area{self.area + 1}")
        if self.number:
            parts.append(f"no{self.number + 1}")
        return ".".join(parts)
