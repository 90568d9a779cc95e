"""Hatches told apart without colour."""

from __future__ import annotations

HATCHES = {
    "cut": ((45.0, 1.4, 0.13),),
    "sliver": ((45.0, 0.9, 0.13), (-45.0, 0.9, 0.13)),
    "wall": ((45.0, 0.8, 0.25),),
    "concrete": ((30.0, 2.2, 0.13), (75.0, 2.6, 0.13)),
    "mortar": ((0.0, 0.7, 0.13),),
    "stone": ((60.0, 1.3, 0.18), (-60.0, 1.3, 0.18)),
    "sand": ((0.0, 1.1, 0.1), (90.0, 1.1, 0.1)),
    "ground": ((-45.0, 1.8, 0.13),),
    "water1": ((45.0, 2.6, 0.13),),
    "water2": ((-45.0, 2.6, 0.13),),
    "water3": ((0.0, 2.6, 0.13),),
    "water4": ((90.0, 2.6, 0.13),),
    "water5": ((20.0, 1.6, 0.13),),
    "water6": ((70.0, 1.6, 0.13),),
}
"""Angle, spacing and line width of each set of lines. [deg, mm, mm]"""

PLAIN = {"none": "none", "white": "#fff", "grey": "#d9d9d9", "black": "#000"}
"""Fills without a hatch."""
