"""Jobs made by chance: small, sound, and with names, sizes and choices that no person would think of."""

from __future__ import annotations

import datetime as dt
import math

from hypothesis import strategies as st

NAMES = st.text(st.characters(exclude_categories=("Cs", "Cc")), min_size=1, max_size=30).map(str.strip).filter(bool)
WORDS = st.text(st.characters(exclude_categories=["Cs"], exclude_characters="\x00"), max_size=50)
BEARINGS = st.integers(0, 359).map(float)
BEDDINGS = ("mortar_on_concrete", "mortar_on_sub_base", "sand_on_sub_base")


def lengths(low, high):
    """Whole millimetres, as a tape gives them."""
    return st.integers(low, high).map(float)


def some(draw, chance, part):
    """A part of a document or nothing of it."""
    return draw(part) if draw(st.sampled_from([False] * (chance - 1) + [True])) else None


@st.composite
def units(draw, name="u"):
    """A unit whose weight its sizes can have."""
    length, width, thickness = draw(lengths(200, 900)), draw(lengths(200, 600)), draw(lengths(20, 100))
    density = draw(st.floats(1800.0, 3000.0))
    kg_each = round(length * width * thickness * density / 1e9, 2)
    return {
        "name": name,
        "kind": draw(st.sampled_from(["flag", "block", "sett"])),
        "length_mm": length,
        "width_mm": width,
        "thickness_mm": thickness,
        "kg_each": kg_each,
        "per_pack": draw(st.integers(1, min(60, int(6000.0 / kg_each)))),
        "pack_price_minor": draw(st.integers(0, 100000)),
        "part_packs": draw(st.booleans()),
        "riven": draw(st.booleans()),
    }


def identities():
    """Who and where."""
    return st.fixed_dictionaries(
        {
            "job": NAMES,
            "title": WORDS,
            "date": st.dates(dt.date(1900, 1, 1), dt.date(2199, 12, 31)).map(dt.date.isoformat),
            "locality": st.sampled_from(["england", "wales", "scotland", "ireland", "usa", "elsewhere"]),
            "currency": st.sampled_from(["GBP", "EUR", "USD"]),
            "revision": st.integers(0, 9999),
        }
    )


def terms():
    """Rates, crew and calendar."""
    return st.fixed_dictionaries(
        {
            "rates": st.fixed_dictionaries(
                {"labour_minor_per_hour": st.integers(0, 9000), "margin_percent": st.floats(0.0, 90.0)}
            ),
            "crew": st.fixed_dictionaries({"people": st.integers(1, 6), "hours_per_day": st.floats(1.0, 12.0)}),
            "calendar": st.fixed_dictionaries(
                {"start": st.dates(dt.date(2000, 1, 1), dt.date(2100, 1, 1)).map(dt.date.isoformat)}
            ),
        }
    )


@st.composite
def layings(draw, unit="u"):
    """A laying of a unit in any direction."""
    return {
        "unit": unit,
        "pattern": draw(st.sampled_from(["stack", "running"])),
        "joint_mm": draw(lengths(0, 15)),
        "bearing_deg": draw(BEARINGS),
        "turn_deg": draw(st.integers(-180, 180).map(float)),
        "mix": draw(st.integers(0, 9999)),
        "bedding": draw(st.sampled_from(BEDDINGS)),
    }


@st.composite
def documents(draw):
    """Small sound documents: one rectangle with odd names, sizes and choices, by its coordinates."""
    corners = draw(st.lists(NAMES, min_size=4, max_size=4, unique=True))
    wide, deep = draw(lengths(900, 9000)), draw(lengths(900, 9000))
    places = [(0.0, 0.0), (wide, 0.0), (wide, deep), (0.0, deep)]
    return {
        "format": "pavewright.job",
        "version": 1,
        "identity": draw(identities()),
        "measurements": {
            "points": [{"name": name, "x_mm": x, "y_mm": y} for name, (x, y) in zip(corners, places, strict=True)]
        },
        "areas": [
            {
                "name": draw(NAMES),
                "outline": [{"point": name} for name in corners],
                "use": draw(st.sampled_from(["foot", "car", "light_van"])),
                "fall": {"bearing_deg": draw(BEARINGS), "level_at": corners[0], "level_mm": 0.0},
                "laying": draw(layings()),
            }
        ],
        "units": [draw(units())],
        **draw(terms()),
    }


@st.composite
def measured_documents(draw):
    """Small sound documents as a visit gives them: tapes with a diagonal, a closed level book, a wall, drains, readings."""
    document = draw(documents())
    corners = [corner["point"] for corner in document["areas"][0]["outline"]]
    names = draw(st.lists(NAMES.filter(lambda name: name not in corners), min_size=12, max_size=12, unique=True))
    mark, wall, door, brick, outfall, gully, spot, channel, post, tree, cable, book = names
    given = {point["name"]: (point["x_mm"], point["y_mm"]) for point in document["measurements"]["points"]}
    wide, deep = given[corners[2]]
    datum = draw(lengths(4000, 50000))
    inside = {spot: (draw(lengths(300, 600)), draw(lengths(300, 600)))}
    document["measurements"] = _measurements(draw, given, inside, (mark, datum, book))
    document["site"] = {
        "north_bearing_deg": draw(BEARINGS),
        "walls": [
            {
                "name": wall,
                "start": corners[0],
                "end": corners[1],
                "dpc_level_mm": datum + draw(lengths(200, 400)),
                "openings": [
                    {
                        "name": door,
                        "along_mm": draw(lengths(0, 100)),
                        "width_mm": draw(lengths(600, 700)),
                        "threshold_level_mm": datum + draw(lengths(200, 400)),
                    }
                ],
                "air_bricks": [
                    {"name": brick, "along_mm": wide - 50.0, "underside_level_mm": datum + draw(lengths(200, 400))}
                ],
            }
        ],
        "outfalls": [{"name": outfall, "kind": "soakaway", "confirmed": draw(st.booleans())}],
        "gullies": [{"name": gully, "point": spot, "outfall": draw(st.sampled_from([None, outfall]))}],
        "channels": [{"name": channel, "start": corners[2], "end": corners[3], "outfall": outfall}],
        "obstacles": [{"name": post, "point": corners[2], "diameter_mm": draw(lengths(50, 300))}],
        "trees": [{"name": tree, "point": corners[3], "stem_diameter_mm": draw(lengths(50, 900))}],
        "services": [{"name": cable, "kind": "electricity", "points": [corners[0], corners[2]]}],
        "walk_round": [{"question": draw(WORDS), "answer": draw(st.sampled_from(["none", "could_not_see"]))}],
    }
    area = document["areas"][0]
    area["fall"] = {"away_from": wall, "one_in": draw(lengths(40, 100))}
    area["laying"] |= {"along": [corners[0], corners[1]], "origin": corners[0]}
    area["edges"] = [{"corner": corners[1], "restraint": draw(st.sampled_from(["haunch", "edging", "kerb"]))}]
    document["as_laid"] = {
        "date": "2027-06-04",
        "readings": [
            {"x_mm": wide / 2.0, "y_mm": deep / 2.0, "level_mm": datum + draw(lengths(0, 99)), "area": area["name"]}
        ],
    }
    return document


def _measurements(draw, places, inside, levelling):
    """All six tapes of four corners, a point off two of them, and a book that closes a few millimetres out."""
    mark, datum, book = levelling
    corners = list(places)
    pairs = [(a, b) for number, a in enumerate(corners) for b in corners[number + 1 :]]
    collimation = draw(lengths(1200, 1600))
    rows = [{"point": mark, "backsight_mm": collimation}]
    rows += [{"point": name, "intermediate_mm": collimation - draw(lengths(-150, 150))} for name in corners]
    rows.append({"point": mark, "foresight_mm": collimation + draw(lengths(-3, 3))})
    return {
        "offsets": [
            {"name": name, "line_from": corners[0], "line_to": corners[1], "along_mm": x, "offset_mm": y}
            for name, (x, y) in inside.items()
        ],
        "tape_plan": {
            "base_from": corners[0],
            "base_to": corners[1],
            "tapes": [
                {
                    "start": a,
                    "end": b,
                    "length_mm": float(round(math.dist(places[a], places[b]))) + draw(lengths(-1, 1)),
                }
                for a, b in pairs
            ],
            "sides": [
                {"point": name, "line_from": corners[0], "line_to": corners[1], "side": "left"} for name in corners[2:]
            ],
        },
        "benchmarks": [{"point": mark, "level_mm": datum}],
        "level_books": [{"name": book, "rows": rows}],
        "ground_points": corners,
    }
