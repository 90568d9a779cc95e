"""The example patio: a pack of four sizes laid at random on a module of 300 mm.

The document stands in one piece, as a person would read it; that is why its function is long.
"""

from __future__ import annotations

from example_parts import ARRANGED, CATALOGUE, MORTAR_MATERIALS, Document, identity

SIZES = (
    ("Flag 900 × 600", 890.0, 590.0),
    ("Flag 600", 590.0, 590.0),
    ("Flag 600 × 300", 590.0, 290.0),
    ("Flag 300", 290.0, 290.0),
)
"""Name, length and width as sold, of which a pack holds 12, 12, 16 and 16. [mm]"""


def flag(name: str, length_mm: float, width_mm: float) -> Document:
    """Return a flag of the pack by itself, as the merchant sells it: price by its share of the pack."""
    area_m2 = length_mm * width_mm * 1e-6
    return {
        "name": name,
        "kind": "flag",
        "material": "pressed concrete",
        "length_mm": length_mm,
        "width_mm": width_mm,
        "thickness_mm": 38.0,
        "kg_each": round(area_m2 * 38.0 * 2.3, 1),
        "per_pack": 1,
        "part_packs": True,
        "pack_price_minor": round(3100.0 * area_m2),
        "joint_min_mm": 8.0,
        "joint_max_mm": 12.0,
    }


def mixed_patio() -> Document:
    """Return the patio: mixed sizes on a module, two packs, cut at the slanting side."""
    corners = {
        "P1": (0.0, 0.0, 9835.0),
        "P2": (6590.0, 0.0, 9830.0),
        "P3": (7080.0, 4190.0, 9790.0),
        "P4": (0.0, 4190.0, 9800.0),
    }
    ground = {
        "G1": (-500.0, -200.0, 9838.0),
        "G2": (3300.0, -200.0, 9830.0),
        "G3": (7400.0, -200.0, 9824.0),
        "G4": (-500.0, 2100.0, 9818.0),
        "G5": (3400.0, 2100.0, 9812.0),
        "G6": (7500.0, 2200.0, 9806.0),
        "G7": (-500.0, 4900.0, 9790.0),
        "G8": (3500.0, 4900.0, 9786.0),
        "G9": (7600.0, 4900.0, 9780.0),
    }
    points = [
        {"name": name, "x_mm": x, "y_mm": y, "level_mm": level} for name, (x, y, level) in (corners | ground).items()
    ]
    return {
        "format": "pavewright.job",
        "version": 3,
        "identity": identity("WF-2705", "Patio in mixed sizes", "E. Quillfeather", "3 Tallow Row", "2027-06-02"),
        "measurements": {
            "datum": "sill of the back door, 10.150 m on the job's own datum",
            "points": points,
            "ground_points": list(ground),
        },
        "site": {
            "north_bearing_deg": 12.0,
            "access_width_mm": 1100.0,
            "carry_mm": 18000.0,
            "walls": [{"name": "House", "start": "P1", "end": "P2", "dpc_level_mm": 10000.0}],
            "outfalls": [{"name": "Lawn", "kind": "lawn", "confirmed": True}],
            "ground": {"soil": "sand", "topsoil_mm": 100.0, "water_table": "low"},
        },
        "areas": [
            {
                "name": "Patio",
                "outline": [{"point": point} for point in corners],
                "use": "foot",
                "position": "rear",
                "fall": {"away_from": "House", "one_in": 60.0, "level_at": "P1", "level_mm": 9845.0},
                "laying": {
                    "unit": SIZES[0][0],
                    "pattern": "mixed",
                    "course_units": [name for name, _, _ in SIZES[1:]],
                    "pack": {
                        "module_mm": 300.0,
                        "counts": [12, 12, 16, 16],
                        "covers_m2": 15.12,
                        "pack_price_minor": 45200,
                    },
                    "mix": 3,
                    "along": ["P1", "P2"],
                    "joint_mm": 10.0,
                },
                "edges": [{"corner": corner, "restraint": "edging"} for corner in ("P2", "P3", "P4")],
            }
        ],
        "units": [flag(*size) for size in SIZES],
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
        "calendar": {"start": "2027-07-05", "weather_percent": 10.0},
        "tolerance": "flags",
    }
