"""A rulebook: figures and tables by key."""

from __future__ import annotations

import datetime as dt
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping

    from pavewright.rules._assembled import Assembled
    from pavewright.rules._figures import Figure, Table
    from pavewright.rules._sources import Source


class UnknownFigureError(LookupError):
    """A room asked for a figure that the rulebook does not hold: a bug, not a fault of the job."""


@dataclass(frozen=True, slots=True)
class Rulebook:
    """One edition of the figures of the trade.

    Attributes:
        edition: Name of the edition: that of its folder.
        title: What it is, for a person.
        locality: The place whose rules it holds, as the job document names it.
        dated: Since when its figures stand: the latest date of it and of what it extends.
        figures: Figures by key.
        tables: Tables by key.
        sources: Sources by key.
        zone: Time zone of the place; None where it has several or nobody has said.
        region_zones: Time zones of regions that have no more than one; none where the edition names its place.
        assemblies: What work takes beside what is drawn, by key; the amount of each is the figure of its key.
    """

    edition: str
    title: str
    figures: Mapping[str, Figure] = field(default_factory=lambda: MappingProxyType({}))
    tables: Mapping[str, Table] = field(default_factory=lambda: MappingProxyType({}))
    sources: Mapping[str, Source] = field(default_factory=lambda: MappingProxyType({}))
    locality: str = ""
    dated: dt.date = dt.date.min
    assemblies: Mapping[str, Assembled] = field(default_factory=lambda: MappingProxyType({}))
    zone: dt.tzinfo | None = None
    region_zones: Mapping[str, dt.tzinfo] = field(default_factory=lambda: MappingProxyType({}))

    def zone_in(self, region: str | None) -> dt.tzinfo | None:
        """Return the time zone of the place, or of a region where no place is named; None where it is not known."""
        return self.zone or self.region_zones.get(region or "")

    def figure(self, key: str) -> Figure:
        """Return the figure with this key.

        Raises:
            UnknownFigureError: the rulebook has no such figure.
        """
        try:
            return self.figures[key]
        except KeyError:
            message = f"rulebook {self.edition} has no figure {key}"
            raise UnknownFigureError(message) from None

    def value(self, key: str) -> float:
        """Return the number of the figure with this key."""
        return self.figure(key).value

    def has(self, key: str) -> bool:
        """Return whether this edition holds the figure: a rule of one place may not exist in another."""
        return key in self.figures

    def table(self, key: str) -> Table:
        """Return the table with this key.

        Raises:
            UnknownFigureError: the rulebook has no such table.
        """
        try:
            return self.tables[key]
        except KeyError:
            message = f"rulebook {self.edition} has no table {key}"
            raise UnknownFigureError(message) from None
