"""Earthworks: how much is dug, how much is filled, and what has to leave the site.

All topsoil is dug, and subsoil down to formation, exact over the triangles between spot levels; where formation lies
above the stripped ground the room between is fill. Soil swells when it is dug, and sources disagree by how much: loose
volume, mass, loads and barrows are ranges. What topsoil of unknown depth may add is kept apart. The room also says
where to dig with care.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.earthworks._codes import Code
    from pavewright.earthworks._dig import dig
    from pavewright.earthworks._figures import SoilFigures, soil_figures
    from pavewright.earthworks._fill import layers_in_words
    from pavewright.earthworks._loads import loads, loose, mass
    from pavewright.earthworks._sums_volumes import SUMS
    from pavewright.earthworks._types import (
        AreaDig,
        Compactor,
        Dug,
        Earthworks,
        FillLayers,
        LayerCompaction,
        RootsNear,
        ServiceNear,
        ServiceState,
        Spread,
        TopsoilAllowance,
    )
    from pavewright.earthworks._types_found import FoundDig
else:
    __getattr__ = face(__name__)

__all__ = [
    "SUMS",
    "AreaDig",
    "Code",
    "Compactor",
    "Dug",
    "Earthworks",
    "FillLayers",
    "FoundDig",
    "LayerCompaction",
    "RootsNear",
    "ServiceNear",
    "ServiceState",
    "SoilFigures",
    "Spread",
    "TopsoilAllowance",
    "dig",
    "layers_in_words",
    "loads",
    "loose",
    "mass",
    "soil_figures",
]
