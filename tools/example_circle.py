"""The example with a circle: slabs in running bond, a round inlay of setts laid first, a strip of setts behind."""

from __future__ import annotations

from example_parts import ARRANGED, CATALOGUE, MORTAR_MATERIALS, Document, identity

CORNERS = {
    "P1": (0.0, 0.0, 9840.0),
    "P2": (6130.0, 0.0, 9836.0),
    "P3": (6130.0, 5470.0, 9790.0),
    "P4": (0.0, 5470.0, 9795.0),
}
"""Corners of the court: east, north, level. [mm]"""
SPOTS = {
    "G1": (-400.0, -100.0, 9842.0),
    "G2": (3100.0, -100.0, 9838.0),
    "G3": (6600.0, -100.0, 9834.0),
    "G4": (-400.0, 2700.0, 9818.0),
    "G5": (3100.0, 2700.0, 9812.0),
    "G6": (6600.0, 2700.0, 9810.0),
    "G7": (-400.0, 5900.0, 9790.0),
    "G8": (3100.0, 5900.0, 9786.0),
    "G9": (6600.0, 5900.0, 9784.0),
}
"""Spot levels of the ground. [mm]"""


def unit(name: str, length_mm: float, width_mm: float, per_pack: int, price_minor: int) -> Document:
    """Return a unit of sawn stone, 40 thick."""
    return {
        "name": name,
        "kind": "flag" if width_mm > 150.0 else "sett",
        "material": "sawn sandstone",
        "length_mm": length_mm,
        "width_mm": width_mm,
        "thickness_mm": 40.0,
        "kg_each": round(length_mm * width_mm * 40.0 * 2.4e-6, 1),
        "per_pack": per_pack,
        "part_packs": True,
        "pack_price_minor": price_minor,
        "joint_min_mm": 4.0,
        "joint_max_mm": 18.0,
    }


def circle_court() -> Document:
    """Return the court: an inlay in rings and a change of pattern at a line."""
    points = [
        {"name": name, "x_mm": x, "y_mm": y, "level_mm": level} for name, (x, y, level) in (CORNERS | SPOTS).items()
    ]
    points += [
        {"name": "O", "x_mm": 3065.0, "y_mm": 2430.0},
        {"name": "L1", "x_mm": 0.0, "y_mm": 4870.0},
        {"name": "L2", "x_mm": 6130.0, "y_mm": 4870.0},
    ]
    setts = {"unit": "Sett 200", "joint_mm": 6.0}
    return {
        "format": "pavewright.job",
        "version": 3,
        "identity": identity("WF-2706", "Court with a circle", "N. Marrowby", "11 Osier Yard", "2027-06-21"),
        "measurements": {
            "datum": "step of the garden door, 10.160 m on the job's own datum",
            "points": points,
            "ground_points": list(SPOTS),
        },
        "site": {
            "north_bearing_deg": 345.0,
            "access_width_mm": 950.0,
            "carry_mm": 22000.0,
            "walls": [{"name": "House", "start": "P1", "end": "P2", "dpc_level_mm": 10000.0}],
            "outfalls": [{"name": "Lawn", "kind": "lawn", "confirmed": True}],
            "ground": {"soil": "gravel", "topsoil_mm": 120.0, "water_table": "low"},
        },
        "areas": [
            {
                "name": "Court",
                "outline": [{"point": point} for point in CORNERS],
                "use": "foot",
                "position": "rear",
                "fall": {"away_from": "House", "one_in": 80.0, "level_at": "P1", "level_mm": 9845.0},
                "laying": {
                    "unit": "Slab 600",
                    "pattern": "running",
                    "along": ["P1", "P2"],
                    "joint_mm": 8.0,
                    "shift_along_mm": 150.1,
                },
                "zones": [
                    {
                        "name": "Circle",
                        "circle_at": "O",
                        "radius_mm": 1353.0,
                        "laying": setts | {"pattern": "rings", "course_units": ["Sett 100"], "origin": "O"},
                    },
                    {
                        "name": "Strip",
                        "beyond": ["L1", "L2"],
                        "laying": setts | {"pattern": "running", "along": ["P1", "P2"], "shift_along_mm": 75.6},
                    },
                ],
                "edges": [{"corner": corner, "restraint": "haunch"} for corner in ("P2", "P3", "P4")],
            }
        ],
        "units": [
            unit("Slab 600", 600.0, 600.0, 18, 32400),
            unit("Sett 200", 200.0, 100.0, 120, 14600),
            unit("Sett 100", 100.0, 100.0, 240, 15200),
        ],
        "rates": {
            "labour_minor_per_hour": 2850,
            "plant": [{"key": "saw", "name": "Saw with water feed", "day_price_minor": 3800}],
            "disposal": {"kind": "skip", "volume_m3": 4.6, "payload_tonnes": 6.0, "load_price_minor": 26500},
            "materials": MORTAR_MATERIALS,
            "catalogue": CATALOGUE,
            "overhead_percent": 12.0,
            "margin_percent": 18.0,
            "tax_percent": 20.0,
            "tax_name": "VAT",
        },
        "crew": {"people": 2, "hours_per_day": 7.5, "own_mixer": True},
        "arrangements": ARRANGED,
        "calendar": {"start": "2027-08-02", "weather_percent": 10.0},
        "tolerance": "flags",
    }
