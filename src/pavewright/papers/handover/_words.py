"""The words of the handover: one catalogue, so that another language is another one of these."""

from __future__ import annotations

from dataclasses import dataclass

from pavewright.job import EdgeRestraint
from pavewright.job.handover import BuriedKind
from pavewright.writing import Catalogue, Sentence


@dataclass(frozen=True, slots=True)
class HandoverWords(Catalogue):
    """Every sentence of the handover; what differs from job to job has a named place."""

    title: str = "Handover"
    lead: Sentence = Sentence("What was laid at {title}, what lies under it and how to look after it.")
    completed: str = "Complete on"
    handed: str = "Handed over on"
    warranty: str = "Warranty until"
    not_entered: str = "not entered"
    by: str = "Handed over by"
    to: str = "Taken over by"
    taken: str = "The drains, the covers and the spare units were shown, and this was handed over."
    notes: str = "Said at the handover"
    own_care: str = "Care, in the firm's own words"
    guarantee: str = "Warranty, in the firm's own words"
    warranty_head: str = "Warranty"
    faults: str = "If something is not right"
    tell_us: str = "Tell the firm in writing, with a photo and the date, as soon as you see it."
    ask_office: str = "ask the office"
    terms_elsewhere: str = (
        "This paper was made without prices and terms. The warranty, and whom to tell of a fault, stand on the handover"
        " that the office makes."
    )
    no_guarantee: str = "No warranty of the firm was entered. You keep the rights that the law gives you."

    as_laid: str = "As laid"
    not_measured: str = "Not measured: no level was read on the finished paving."
    unread_head: str = "Not measured"
    noticed: str = "What was noticed about the readings"
    stops: Sentence = Sentence("Not ready to be handed over. Open points that stop this job: {count}.")
    not_measured_area: Sentence = Sentence("Not measured: no level was read on {area}.")
    nothing_said: str = "So nothing is said here of falls, of flatness or of clearances. That is not the same as fine."
    held: Sentence = Sentence("{area}: {verdict}, by {count} readings")
    held_why: Sentence = Sentence("{held}: {why}")
    unheld: Sentence = Sentence("{area}: not measured")

    products: str = "Products and batches"
    products_why: str = "One batch is of one shade. Ask for the same product and batch when you buy more."
    product: str = "product"
    area: str = "area"
    size: str = "size mm"
    batch: str = "batch"
    delivered: str = "delivered"
    ticket: str = "ticket"

    keys: str = "Covers and their keys"
    keys_why: str = "A cover must stay findable and must lift: never fill its joint, never lay over it."
    no_covers: str = "No cover was entered in this job. One that is not listed may still be there."
    cover: str = "cover"
    keys_count: str = "keys"
    kept_at: str = "kept at"

    spares: str = "Units left over"
    spares_why: str = (
        "By the plan: bought in whole packs, less what was laid. What broke is not known, so this is the most that can "
        "be left. Count them, and keep them dry and flat."
    )
    unit: str = "unit"
    bought: str = "bought"
    laid: str = "laid"
    left_most: str = "left at most"
    counted: str = "counted"
    no_spares: str = "No order is known, so no number left over is either. Count them."

    photos: str = "Photos"
    photos_square: str = "A square, such as B3, is that of the same name on the drawings."
    photo: Sentence = Sentence("Photo {number}")
    photo_said: Sentence = Sentence("{number}. {said}")
    photo_on: Sentence = Sentence("sent {day}")
    photo_at: Sentence = Sentence("square {square}")
    photo_outside: str = "beside the paving"
    photo_unread: Sentence = Sentence("This photo cannot be read, so it is not shown: {caption}")
    photos_more: Sentence = Sentence("Older photos that are kept with the job and not shown here: {count}.")

    buried: str = "What lies buried where"
    buried_list: str = "What lies buried, as a list"
    buried_why: str = (
        "Planned: as the drawings have it, nobody measured it in the ground. As found: it was there before or was "
        "seen, by what stands beside it; its depth was not read for this job. Measured: read before it was covered. "
        "Something that is not listed may still be there: have the ground traced before anybody digs."
    )
    what: str = "what"
    known_how: str = "how it is known"
    depth: str = "top is down mm"
    foot: str = "foot is down mm"
    run: str = "length m"
    basis: str = "from"
    depth_unknown: str = "not known"
    planned: str = "planned"
    as_found: str = "as found"
    measured: str = "measured"
    no_record: str = "no record named"
    of_old_ground: Sentence = Sentence("{record}; below the ground as it lay before")
    leads_to: Sentence = Sentence("leads to {outfall}")
    leads_nowhere: str = "where it leads is not known"
    state_unknown: Sentence = Sentence("{rest}; whether it is new was not entered")
    by_plan: str = "the plan"
    edge_of: Sentence = Sentence("{what} at the edges of {area}")
    measured_on: Sentence = Sentence("measured {day}")
    seen_on: Sentence = Sentence("seen {day}, depth not read")
    day_not_noted: str = "day not noted"

    care: str = "When to use, clean and seal it"
    care_planned: Sentence = Sentence(
        "Counted from {day}, the last day of work by the programme: the day of completion was not entered."
    )
    care_counted: Sentence = Sentence("Counted from the end of {day}, when the work was complete.")
    care_evening: str = "Each date holds from its evening. Cold and wet weather makes it later, never earlier."
    care_usual: str = "Usual figures. What the maker of a product prints comes before them."
    care_what: str = "what"
    care_from: str = "not before"
    care_safe: str = "safe side"
    care_source: str = "by"
    walk: Sentence = Sentence("Walk on it: {area}")
    walk_at_once: Sentence = Sentence("Walk on it: {area}, laid in sand")
    drive: Sentence = Sentence("Drive on it: {area}")
    drive_at_once: Sentence = Sentence("Drive on it: {area}, laid in sand")
    no_drive: Sentence = Sentence("Never drive on {area}: it is built for people on foot.")
    furniture: str = "Put furniture on it"
    wash: str = "Use a pressure washer or a cleaner"
    seal: str = "Seal it, if you wish to"
    top_up: str = "Look at sand joints and top them up"
    look: str = "Look at mortar joints and sealant"
    no_end: str = "not known: it is too cold to harden. Ask."
    care_rest: tuple[str, ...] = (
        "Sweep it, and lift wet leaves: most slips come from algae.",
        "No acid and no bleach. Try every cleaner on a hidden unit first.",
        "No salt against ice on mortar and concrete in their first winter.",
        "A unit that rocks, a joint that opens, water that stands for hours: tell the firm, with a photo and the date.",
    )

    water: str = "Where the water goes: for the neighbour"
    water_lead: Sentence = Sentence("Rain on the new paving at {address}, before the work and after it.")
    water_of: str = "Calculated from the plan, not measured in rain. It promises nothing and takes away no right."
    water_storm: Sentence = Sentence("A storm of {depth} mm in {minutes} min: {reported}.")
    water_none: str = "The storm was not calculated: the litres before and after are not known."
    runs_to: str = "where the paving drains to"
    ends_at: str = "ends at"
    before: str = "litres before"
    after: str = "litres after"
    not_known: str = "not known"
    borders: str = "At each boundary"
    border_none: Sentence = Sentence("{name}: by the plan no part of the new paving drains to it.")
    border_some: Sentence = Sentence("{name}: by the plan {after} litres of that storm reach it; before, {before}.")
    border_flow: Sentence = Sentence("{name}: by the plan water of {area} m² of the new paving reaches it.")
    no_borders: str = "No boundary was entered, so nothing is said of one."
    own_ground: str = (
        "What ends on the owner's own ground, such as a bed or a lawn, is not followed further: whether any of it "
        "runs on from there is not known."
    )
    water_limits: str = "What this does not show"
    water_stops: str = (
        "The plan still has open points on water. This sheet may not be handed to anybody before they are settled."
    )

    index: Sentence = Sentence("Handover of job {job}, revision {revision}, {day}.")
    index_of: str = "What is in this folder"
    file_pdf: str = "everything on paper"
    file_drawing: Sentence = Sentence("drawing: {title}")
    file_csv: str = "levels as laid, for a table program; empty below its heads where nothing was read"
    file_json: str = "levels as laid and all records of the handover, for machines"
    file_photo: Sentence = Sentence("photo: {caption}")
    file_buried: str = "what lies buried, for a table program"
    heights: Sentence = Sentence("Levels in metres over: {datum}. Places in millimetres on the grid of the job.")


BURIED = {
    BuriedKind.DRAIN: "drain",
    BuriedKind.SERVICE: "service",
    BuriedKind.SOAKAWAY: "soakaway",
    BuriedKind.EDGE: "edge bedding",
    BuriedKind.OTHER: "other",
}
"""What lies buried, in words."""
EDGES = {
    EdgeRestraint.KERB: "Concrete under kerbs",
    EdgeRestraint.EDGING: "Concrete under edgings",
    EdgeRestraint.HAUNCH: "Haunch of concrete",
}
"""What of an edge lies buried, in words; anything else is a footing."""
FOOTING = "Footing of a wall"
WORDS = HandoverWords()
"""The words in English."""
