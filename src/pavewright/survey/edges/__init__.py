"""Edges: outlines with arcs, and every wall, cover, gully and tree at its place."""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.survey.edges._curves import tell_curves
    from pavewright.survey.edges._edge_by_arcs import edge_by_arcs
    from pavewright.survey.edges._features import Features, Places, place_features
    from pavewright.survey.edges._outlines import ArcFaultError, outline_ring
    from pavewright.survey.edges._paved_areas import place_areas
    from pavewright.survey.edges._sums_setting_out import SETTING_OUT_SUMS
else:
    __getattr__ = face(__name__)

__all__ = [
    "SETTING_OUT_SUMS",
    "ArcFaultError",
    "Features",
    "Places",
    "edge_by_arcs",
    "outline_ring",
    "place_areas",
    "place_features",
    "tell_curves",
]
