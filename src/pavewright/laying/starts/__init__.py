"""Starts: the best places to begin, directions and joints, and edges and circles moved to save cuts."""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.laying.starts._counted_start import counted_start
    from pavewright.laying.starts._moved_circles import MovedCircle
    from pavewright.laying.starts._moved_edges import MovedEdge
    from pavewright.laying.starts._start_choices import Choice
    from pavewright.laying.starts._starts import AreaStarts, best_starts
else:
    __getattr__ = face(__name__)

__all__ = [
    "AreaStarts",
    "Choice",
    "MovedCircle",
    "MovedEdge",
    "best_starts",
    "counted_start",
]
