"""Edges: what an area touches, and where water that reaches an edge goes."""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.levels.edges._contacts import Contact, away_from, contacts, shared_edges
    from pavewright.levels.edges._draining import DrainedSurface, drained_grid, drained_surface, to_walls_m, words
    from pavewright.levels.edges._takers import NO_DRAIN, THEIRS, Taker, TakerKind, beyond_of, past_edge
else:
    __getattr__ = face(__name__)

__all__ = [
    "NO_DRAIN",
    "THEIRS",
    "Contact",
    "DrainedSurface",
    "Taker",
    "TakerKind",
    "away_from",
    "beyond_of",
    "contacts",
    "drained_grid",
    "drained_surface",
    "past_edge",
    "shared_edges",
    "to_walls_m",
    "words",
]
