"""The words of the logs that were written, in one place."""

from __future__ import annotations

from dataclasses import dataclass

from pavewright.job.on_site import SkyKind, StopKind, WasteKind, WorkStage
from pavewright.writing import Catalogue, Sentence


@dataclass(frozen=True, slots=True)
class LoggedWords(Catalogue):
    """Every sentence of the logs; names in braces are filled in."""

    title: str = "Logs of the days"
    unknown: str = "unknown"
    people: str = "There"
    person: Sentence = Sentence("{name} {hours} h")
    person_unknown: Sentence = Sentence("{name}, hours not known")
    hours_heads: tuple[str, ...] = ("task", "hours", "done, %")
    booked: Sentence = Sentence("{booked} h booked of {there} h there")
    booked_alone: Sentence = Sentence("{booked} h booked; hours there not known")
    weather: str = "Weather"
    lowest: Sentence = Sentence("lowest {value} °C")
    highest: Sentence = Sentence("highest {value} °C")
    rain: Sentence = Sentence("{value} of rain in the gauge")
    stops: str = "Stopped"
    stop: Sentence = Sentence("{why}, {hours} h")
    stop_unknown: Sentence = Sentence("{why}, not timed")
    bays: str = "Done"
    bay: Sentence = Sentence("{area}: {stage}")
    delivered: str = "Came"
    batch: Sentence = Sentence("{what}, batch {batch}")
    no_batch: Sentence = Sentence("{what}, batch not read")
    ticket: Sentence = Sentence("{what}, ticket {ticket}")
    waste: str = "Left"
    no_ticket: Sentence = Sentence("{what}, no ticket")
    cubic: Sentence = Sentence("{value} m³")
    tonnes: Sentence = Sentence("{value} t")
    mixed: str = "Mixed"
    batches: Sentence = Sentence("{many} × {mix}")
    batches_unknown: Sentence = Sentence("{mix}, batches not counted")
    mixed_from: Sentence = Sentence("from {time}")
    mix_warm: Sentence = Sentence("{value} °C")
    note: str = "Note"
    photos: str = "Photos"
    written_by: str = "Written by"


WORDS = LoggedWords()

SKY = {
    SkyKind.DRY: "dry",
    SkyKind.SHOWERS: "showers",
    SkyKind.RAIN: "rain",
    SkyKind.FROST: "frost",
    SkyKind.SNOW: "snow",
}
WHY = {
    StopKind.RAIN: "rain",
    StopKind.FROST: "frost",
    StopKind.HEAT: "heat",
    StopKind.DELIVERY: "a delivery did not come",
    StopKind.BREAKDOWN: "a machine broke down",
    StopKind.FOUND: "something was found",
    StopKind.LOOK: "waited for somebody to look",
    StopKind.CUSTOMER: "the customer",
    StopKind.PEOPLE: "nobody was there",
    StopKind.OTHER: "other",
}
WASTE = {
    WasteKind.SOIL: "soil",
    WasteKind.RUBBLE: "rubble",
    WasteKind.MIXED: "mixed waste",
    WasteKind.GREEN: "green waste",
    WasteKind.OTHER: "other waste",
}
STAGE = {
    WorkStage.DUG: "dug",
    WorkStage.BASE: "base in",
    WorkStage.BED: "bed in",
    WorkStage.LAID: "laid",
    WorkStage.JOINTED: "jointed",
}
