"""The example path: two curved lengths of small blocks with steps between them.

The document stands in one piece, as a person would read it; that is why its function is long.
"""

from __future__ import annotations

from example_parts import ARRANGED, CATALOGUE, SAND_MATERIALS, Document, identity, material


def curved_path() -> Document:
    """Return the path: two curved lengths of small blocks with two steps between them."""
    places = {
        "P1": (0.0, 0.0, 5020.0),
        "P2": (1210.0, 0.0, 5010.0),
        "P3": (2050.0, 4200.0, 4890.0),
        "P4": (860.0, 4420.0, 4900.0),
        "Q3": (2420.0, 9050.0, 4470.0),
        "Q4": (1200.0, 9020.0, 4480.0),
    }
    ground = {
        "G1": (-600.0, -300.0, 5012.0),
        "G2": (1800.0, -300.0, 4996.0),
        "G3": (-100.0, 2100.0, 4962.0),
        "G4": (2300.0, 2100.0, 4934.0),
        "G5": (300.0, 4500.0, 4884.0),
        "G6": (2700.0, 4100.0, 4862.0),
        "G7": (500.0, 5300.0, 4596.0),
        "G8": (2900.0, 5100.0, 4578.0),
        "G9": (500.0, 7200.0, 4532.0),
        "G10": (3000.0, 7200.0, 4514.0),
        "G11": (600.0, 9600.0, 4462.0),
        "G12": (3000.0, 9600.0, 4446.0),
    }
    points = [
        {"name": name, "x_mm": x, "y_mm": y, "level_mm": level} for name, (x, y, level) in (places | ground).items()
    ]

    def length(name: str, outline: list[tuple[str, float]], fall: Document, edges: str) -> Document:
        return {
            "name": name,
            "outline": [{"point": point, "rise_mm": rise} for point, rise in outline],
            "use": "foot",
            "position": "rear",
            "fall": fall,
            "laying": {
                "unit": "Block 200",
                "pattern": "running",
                "stagger": 0.5,
                "bearing_deg": 100.0,
                "joint_mm": 3.0,
                "fill_narrow": True,
                "bedding": "sand_on_sub_base",
            },
            "edges": [{"corner": corner, "restraint": "edging"} for corner in edges.split()],
        }

    return {
        "format": "pavewright.job",
        "version": 3,
        "identity": identity("WF-2702", "Curved path to the orchard", "R. Tamsin-Oake", "The Old Pound", "2027-04-09"),
        "measurements": {
            "datum": "top of the gate stone, 5.000 m on the job's own datum",
            "points": points,
            "offsets": [
                {"name": "Lamp", "line_from": "P1", "line_to": "P4", "along_mm": 2200.0, "offset_mm": 450.0},
            ],
            "ground_points": list(ground),
        },
        "site": {
            "north_bearing_deg": 341.0,
            "access_width_mm": 1050.0,
            "carry_mm": 35000.0,
            "outfalls": [{"name": "Orchard grass", "kind": "lawn", "confirmed": True}],
            "services": [
                {
                    "name": "Lamp cable",
                    "kind": "electricity",
                    "points": ["Lamp", "P1"],
                    "depth_mm": 600.0,
                    "known_from": "the customer's word",
                }
            ],
            "ground": {"soil": "sand", "topsoil_mm": 100.0, "water_table": "low"},
        },
        "areas": [
            length(
                "Upper path",
                [("P1", 0.0), ("P2", -210.0), ("P3", 0.0), ("P4", 190.0)],
                {
                    "bearing_deg": 10.0,
                    "one_in": 40.0,
                    "cross_one_in": 60.0,
                    "cross_to": "right",
                    "level_at": "P1",
                    "level_mm": 5025.0,
                },
                "P2 P4",
            ),
            length(
                "Lower path",
                [("P4", 0.0), ("P3", 230.0), ("Q3", 0.0), ("Q4", -210.0)],
                {"bearing_deg": 2.0, "one_in": 50.0, "cross_one_in": 60.0, "cross_to": "right"},
                "P3 Q4",
            ),
        ],
        "steps": [
            {
                "name": "Orchard steps",
                "upper_area": "Upper path",
                "lower_area": "Lower path",
                "corner": "P3",
                "going_mm": 330.0,
            }
        ],
        "units": [
            {
                "name": "Block 200",
                "kind": "block",
                "material": "concrete",
                "length_mm": 200.0,
                "width_mm": 100.0,
                "thickness_mm": 50.0,
                "kg_each": 2.3,
                "per_pack": 480,
                "pack_price_minor": 21900,
                "joint_min_mm": 2.0,
                "joint_max_mm": 5.0,
            }
        ],
        "rates": {
            "labour_minor_per_hour": 2850,
            "plant": [
                {"key": "plate", "name": "Plate compactor", "day_price_minor": 2900},
                {"key": "saw", "name": "Saw with water feed", "day_price_minor": 3800},
            ],
            "disposal": {"kind": "skip", "volume_m3": 4.6, "payload_tonnes": 6.0, "load_price_minor": 26500},
            "materials": [
                *SAND_MATERIALS,
                material("step_unit", "Step block with tread, 1 m", 1.0, "each", 4650, length_mm=1000.0),
            ],
            "catalogue": CATALOGUE,
            "overhead_percent": 12.0,
            "margin_percent": 18.0,
            "tax_percent": 20.0,
            "tax_name": "VAT",
        },
        "crew": {"people": 2, "hours_per_day": 7.5, "own_mixer": True},
        "arrangements": ARRANGED,
        "calendar": {"start": "2027-06-14", "weather_percent": 10.0},
        "tolerance": "blocks",
    }
