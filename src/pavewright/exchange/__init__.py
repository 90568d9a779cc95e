"""Exchange: the finished work as files that programs of other trades read.

A building model (IFC 4.3) holds the paving, its layers, kerbs, drains and the dig as bodies with their names, materials
and quantities. A map file (GeoJSON) holds the same in plan. A job is measured on a grid of its own: where on the earth
that grid lies is said by whoever asks, or the file says that it is not known.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.exchange._asked import EXCHANGE_FILES, Earth, ExchangeKind, finished_work
    from pavewright.exchange._features import to_geojson
    from pavewright.exchange._place import ExchangeRefusedError, Whereabouts, placed_at
    from pavewright.exchange.model import to_ifc
else:
    __getattr__ = face(__name__)

__all__ = [
    "EXCHANGE_FILES",
    "Earth",
    "ExchangeKind",
    "ExchangeRefusedError",
    "Whereabouts",
    "finished_work",
    "placed_at",
    "to_geojson",
    "to_ifc",
]
