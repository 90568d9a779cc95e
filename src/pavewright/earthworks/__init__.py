"""Earthworks: how much is dug, how much is filled, and what has to leave the site.

The dig is the volume between the ground as it was levelled and the formation, exact over the triangles between spot
levels. Soil swells when it is dug, and sources disagree by how much: loose volume, mass, loads and barrows are ranges.
The room also says where to dig with care.
"""

from pavewright.earthworks._dig import dig
from pavewright.earthworks._loads import loads, loose, mass
from pavewright.earthworks._sums_volumes import SUMS
from pavewright.earthworks._types import (
    AreaDig,
    Earthworks,
    Spread,
)

__all__ = [
    "SUMS",
    "AreaDig",
    "Earthworks",
    "Spread",
    "dig",
    "loads",
    "loose",
    "mass",
]
