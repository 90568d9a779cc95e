"""What the example jobs share: an invented contractor, readings with their errors, priced materials."""

from __future__ import annotations

import copy
import math
from typing import TYPE_CHECKING, Any

from pavewright import rulebook
from pavewright.as_laid import reading_places
from pavewright.job import parse
from pavewright.levels import finished_levels
from pavewright.survey import survey

if TYPE_CHECKING:
    import random

Document = dict[str, Any]
Places = dict[str, tuple[float, float]]

CONTRACTOR = "Wrenfold Paving (invented)"


def identity(job: str, title: str, client: str, address: str, date: str) -> Document:
    """Return who and where."""
    return {
        "job": job,
        "title": title,
        "client": f"{client} (invented)",
        "address": f"{address}, Lower Tessamere (invented)",
        "contractor": CONTRACTOR,
        "date": date,
        "revision": 1,
        "locality": "england",
        "currency": "GBP",
        "invented": True,
    }


def taped(places: Places, pairs: str, chance: random.Random, sd_mm: float) -> list[Document]:
    """Return tapes between pairs of points, read to the millimetre with their errors."""
    tapes = []
    for pair in pairs.split():
        start, end = pair.split("-")
        length = math.dist(places[start], places[end]) + chance.gauss(0.0, sd_mm)
        tapes.append({"start": start, "end": end, "length_mm": float(round(length))})
    return tapes


def level_book(
    name: str, mark: tuple[str, float], levels: list[tuple[str, float]], moves: int, chance: random.Random, sd_mm: float
) -> Document:
    """Return a level book that begins and closes on a benchmark and moves the instrument some times on the way."""

    def read(collimation: float, level: float) -> float:
        return float(round(collimation - level + chance.gauss(0.0, sd_mm)))

    rows: list[Document] = []
    each = math.ceil(len(levels) / (moves + 1))
    collimation = mark[1] + chance.randint(1250, 1550)
    rows.append({"point": mark[0], "backsight_mm": read(collimation, mark[1])})
    for setup in range(moves + 1):
        for point, level in levels[setup * each : (setup + 1) * each]:
            rows.append({"point": point, "intermediate_mm": read(collimation, level)})
        if setup < moves:
            change = mark[1] + chance.randint(-150, 100)
            foresight = read(collimation, change)
            collimation = change + chance.randint(1250, 1550)
            row = {"point": f"change {setup + 1}", "foresight_mm": foresight, "backsight_mm": read(collimation, change)}
            rows.append(row)
    rows.append({"point": mark[0], "foresight_mm": read(collimation, mark[1])})
    return {"name": name, "rows": rows}


def material(key: str, name: str, amount: float, unit: str, price: int, **more: float) -> Document:
    """Return a priced material."""
    return {"key": key, "name": name, "pack_amount": amount, "pack_unit": unit, "pack_price_minor": price, **more}


DRAIN_MATERIALS = [
    material("channel_end", "Closed end of channel", 1.0, "each", 640),
    material("channel_outlet", "Channel outlet with silt bucket", 1.0, "each", 3900),
    material("pipe", "Drain pipe 110, 3 m", 1.0, "each", 1480, length_mm=3000.0),
    material("pipe_bend", "Bend 110", 1.0, "each", 690),
    material("pipe_gravel", "Gravel 10 mm, bulk bag", 850.0, "kg", 5100),
]
CATALOGUE = [
    material("saw_blade", "Diamond blade", 1.0, "each", 6400),
    material("spacer", "Spacers, bag of 500", 500.0, "each", 900),
    material("protection_sheet", "Sheet, roll of 4 by 25 m", 100.0, "m2", 2200),
    material("marker_peg", "Pegs, bundle of 25", 25.0, "each", 1250),
    material("marking_paint", "Marking paint, can", 1.0, "each", 520),
    material("dust_mask", "Dust masks P3, box of 10", 10.0, "each", 2600),
    material("marker_tape", "Marker tape, roll of 100 m", 100.0, "m", 1100),
    material("pipe_coupling", "Coupling 110", 1.0, "each", 420),
    material("drain_test", "Air test of a drain run", 1.0, "each", 4500),
    material("frame_mortar", "Quick-setting mortar, 25 kg", 25.0, "kg", 1650),
    material("fuel", "Fuel", 5.0, "litre", 800),
]
ARRANGED = {
    "skip_on_road": False,
    "parking_paid": False,
    "water_on_site": True,
    "toilet_on_site": True,
    "new_frames": False,
}
MORTAR_MATERIALS = [
    material("cement", "Cement, 25 kg", 25.0, "kg", 640),
    material("sharp_sand", "Sharp sand, bulk bag", 850.0, "kg", 5200),
    material("soft_sand", "Soft sand, 25 kg", 25.0, "kg", 310),
    material("ballast", "All-in ballast, bulk bag", 850.0, "kg", 5400),
    material("plasticiser", "Plasticiser, 5 litre", 5.0, "litre", 1150),
    material("channel", "Channel with grating, 1 m", 1.0, "each", 2950, length_mm=1000.0),
    material("edging", "Edging, 1 m", 1.0, "each", 680, length_mm=1000.0),
    material("movement_joint", "Movement joint: board and sealant, 2 m", 2.0, "m", 1350),
]
SAND_MATERIALS = [
    material("cement", "Cement, 25 kg", 25.0, "kg", 640),
    material("ballast", "All-in ballast, bulk bag", 850.0, "kg", 5400),
    material("sharp_sand", "Sharp sand, bulk bag", 850.0, "kg", 5200),
    material("sub_base", "Graded stone, bulk bag", 850.0, "kg", 4700),
    material("joint_sand", "Dry jointing sand, 20 kg", 20.0, "kg", 590),
    material("geotextile", "Geotextile, roll of 50 m²", 50.0, "m2", 5900),
    material("edging", "Edging, 1 m", 1.0, "each", 680, length_mm=1000.0),
    material("kerb", "Small kerb, 0.9 m", 1.0, "each", 920, length_mm=915.0),
    material("channel", "Channel for cars with grating, 1 m", 1.0, "each", 5850, length_mm=1000.0),
]


_MONTH = {3: "2027-02-15", 4: "2027-03-15", 5: "2027-04-12", 6: "2027-05-10"}
"""The day of the prices, by the month of the job: some weeks before."""
QUARRY, MERCHANT, SUNDRIES = "Hollin Quarry (invented)", "Tessamere Builders' Yard (invented)", "Fennel Yard (invented)"
STONE, HIRE, WASTE = "Wold Stone (invented)", "Ashgrove Hire (invented)", "Pennick Skips (invented)"
OF_THE_QUARRY = {"sharp_sand", "soft_sand", "ballast", "pipe_gravel", "sub_base", "soakaway_stone"}


def with_suppliers(job: Document, quarry_carriage: int) -> Document:
    """Return a job whose goods, plant and loads have suppliers, days of prices, carriage and lead times; all invented.

    Args:
        job: The job document.
        quarry_carriage: What the quarry takes for a delivery; every other supplier delivers free. [minor units]
    """
    made = copy.deepcopy(job)
    day = _MONTH[int(made["identity"]["date"][5:7])]
    rates = made["rates"]

    def sold(entry: Document, supplier: str, kind: str, lead_days: int, carriage: int | None = None) -> None:
        entry |= {"supplier": supplier, "supplier_kind": kind, "priced_on": day, "lead_days": lead_days}
        if carriage is not None:
            entry["carriage_minor"] = carriage

    for each in rates["materials"]:
        if each["key"] in OF_THE_QUARRY:
            sold(each, QUARRY, "quarry", 3, quarry_carriage)
        else:
            sold(each, MERCHANT, "merchant", 2, 0)
    for each in rates["catalogue"]:
        sold(each, SUNDRIES, "merchant", 1, 0)
    for each in rates["plant"]:
        sold(each, HIRE, "hire", 1)
    sold(rates["disposal"], WASTE, "waste", 2, 0)
    packs = [area["laying"]["pack"] for area in made["areas"] if "pack" in area["laying"]]
    for each in (*made["units"], *packs):
        sold(each, STONE, "maker", 5, 0)
    return made


def as_laid(document: Document, area: str, date: str, chance: random.Random) -> Document:
    """Return levels read on the finished paving: near the plan, two of them not."""
    job = parse(document)
    rules = rulebook.load(job.identity.locality)
    measured = survey(job, rules)
    levels = finished_levels(job, measured, rules)
    out = {"L7": 12.0, "L16": -13.0}
    readings = [
        {
            "x_mm": place.at[0],
            "y_mm": place.at[1],
            "level_mm": float(round(place.planned_mm + chance.gauss(0.0, 1.1) + out.get(place.label, 0.0))),
            "area": area,
            "label": place.label,
        }
        for place in reading_places(measured, levels, rules)
        if place.area == area
    ]
    return {
        "date": date,
        "read_by": "the foreman (invented)",
        "instrument": "automatic level and staff",
        "reading_sd_mm": 1.5,
        "readings": readings,
    }
