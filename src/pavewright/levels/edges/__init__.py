"""Edges: what an area touches, and where water that reaches an edge goes."""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.levels.edges._contacts import Contact, away_from, contacts, shared_edges
    from pavewright.levels.edges._draining import CELL_MM, DrainedSurface, cells_of, drained_cells, to_walls_m
    from pavewright.levels.edges._leaving import Levelled
    from pavewright.levels.edges._takers import NO_DRAIN, SHARED_MM, THEIRS, Taker, TakerKind, beyond_of, past_edge
    from pavewright.levels.edges._words import words
else:
    __getattr__ = face(__name__)

__all__ = [
    "CELL_MM",
    "NO_DRAIN",
    "SHARED_MM",
    "THEIRS",
    "Contact",
    "DrainedSurface",
    "Levelled",
    "Taker",
    "TakerKind",
    "away_from",
    "beyond_of",
    "cells_of",
    "contacts",
    "drained_cells",
    "past_edge",
    "shared_edges",
    "to_walls_m",
    "words",
]
