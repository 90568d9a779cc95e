"""The words of the site papers, in one place."""

from __future__ import annotations

from dataclasses import dataclass

from pavewright.writing import Catalogue, Sentence


@dataclass(frozen=True, slots=True)
class SiteWords(Catalogue):
    """Every sentence of the site papers; names in braces are filled in."""

    title: str = "Site papers"
    first: str = "For the crew: work from these, write on these, bring them back with the day's log."
    contents: str = "In these papers"
    not_made: str = "Not in here yet"
    unknown: str = "unknown"
    because: Sentence = Sentence("{what}: {why}")
    local: str = "Local codes and licensed practice take precedence over these sheets."

    hold: str = "Hold points"
    hold_words: str = (
        "Work stops at each of these until somebody has looked, written what was found, and signed. Nothing "
        "is covered before."
    )
    formation: Sentence = Sentence("{number} Formation, {area}")
    layer: Sentence = Sentence("{number} {layer}, {area}")
    drains: Sentence = Sentence("{number} Drains, before they are covered")
    row: Sentence = Sentence("{number} First row, {area}")
    bed: Sentence = Sentence("{number} Bed, {area}")
    finished: Sentence = Sentence("{number} Finished paving, {area}")
    within: Sentence = Sentence("Within +{above} / −{below} mm of the level planned. {source}.")
    either_way: Sentence = Sentence("Within {limit} mm of the level planned, either way. {source}.")
    no_limit: str = "No figure for this layer is known here: agree one, and write it: "
    peg_heads: tuple[str, ...] = ("peg", "down, mm", "level", "found")
    string: Sentence = Sentence("Down: from the string, which runs {high} mm over the finished surface.")
    string_hung: Sentence = Sentence(
        "Down: from the string as it was read and hangs, sag taken off; where it was not read, from the string "
        "as planned, {high} mm over the finished surface."
    )
    no_pegs: str = "This area has no peg inside the dig: agree where to read and write it here."
    looked: str = "Looked at by"
    when: str = "Date, time"
    go_on: str = "Go on, or what first"
    soil: Sentence = Sentence("No soft spot, no root, no water standing; soil as the plan takes it: {soil}")
    visible: tuple[str, ...] = (
        "Services found where the records say, uncovered by hand, still whole",
        "Photo of each side with a staff in it",
    )
    lift: Sentence = Sentence("{layer}: layer {number} of {many}, {thick} mm, {passes}")
    passes: Sentence = Sentence("{passes} passes of the plate")
    passes_unknown: str = "passes unknown: which plate?"
    drain_row: Sentence = Sentence("{name}: {what}")
    drain_heads: tuple[str, ...] = ("what lies open", "planned", "limit", "found")
    invert: str = "invert at its outlet"
    invert_start: str = "invert, where it takes water"
    run: Sentence = Sentence("pipe to {outfall}, length")
    outfall_open: str = "outfall unknown"
    falls: str = "Each pipe falls the right way, is bedded all along, joints pushed home; water poured in runs out"
    no_drains: str = "No gully, channel or soakaway is entered. That does not mean that nothing lies there: look."
    row_heads: tuple[str, ...] = ("piece", "from the start, mm", "level", "found")
    row_joint: Sentence = Sentence("Joint {joint} mm, read from one tape over ten units")
    row_checks: tuple[str, ...] = (
        "Line straight by a string from end to end",
        "Square to the base line by a diagonal",
    )
    bed_planned: str = "Bed thickness, read beside a lifted unit"
    bed_checks: tuple[str, ...] = (
        "Full bed, no dabs: lift the third unit and look at its back",
        "Photo of the bed and of the back of that unit",
    )
    bond: Sentence = Sentence("Bond coat over the whole back: {unit} takes up little water")
    temperature: str = "Temperature of air and stone when mixing began"
    finished_checks: tuple[str, ...] = ("Gap under a 3 m straight edge", "Step between neighbouring units")
    at_most: Sentence = Sentence("at most {limit} mm")
    at_least: Sentence = Sentence("at least {limit} mm")
    at_least_laid: Sentence = Sentence("at least {limit} mm, less {off} mm for laying")
    clearance: Sentence = Sentence("Below the damp-proof course, wall {wall}")
    clearance_open: Sentence = Sentence(
        "Below the damp-proof course, wall {wall}: the plan is below the limit, nothing is promised"
    )
    dpc_unread: Sentence = Sentence("Below the damp-proof course, wall {wall}: not read")
    door: Sentence = Sentence("Step down at {door}, middle")
    regime: Sentence = Sentence("Limits of the regime “{regime}”: {sources}.")

    set_out: str = "Setting out: pegs, strings, tapes"
    near: str = "Known services near pegs"
    near_none: Sentence = Sentence("No known service lies within {limit} mm of a peg.")
    near_heads: tuple[str, ...] = ("peg", "service", "carries", "depth, mm", "away, mm", "how")
    no_pin: str = "NO PIN, dig by hand"

    squares: str = "Laying plan in squares"
    numbers_high: str = "Figures of pieces are 3.5 mm high or more: read at arm's length, about 0.7 m."
    unnumbered: Sentence = Sentence("No room for the numbers of {pieces}: see piece-numbers.pdf.")

    cuts: str = "Cuts by saw set-up"
    cuts_words: str = (
        "One setting, all its cuts, then the next. A cut waits only for the one before it on the same stone. "
        "Numbers of units and cuts are those of the saw plan."
    )
    cuts_none: str = "Nothing is cut."
    cuts_area: Sentence = Sentence("{area}: {many} set-ups")
    cuts_saved: Sentence = Sentence("The fence is set {here} times; unit by unit it would be {there}.")
    cuts_heads: tuple[str, ...] = ("set-up", "setting", "cuts in order: unit/cut → pieces", "done")
    fence: Sentence = Sentence("fence {mm} mm")
    angle: Sentence = Sentence("{deg}° to the length")
    marked: str = "by marks, template"
    along: Sentence = Sentence("{unit}/{cut} → {pieces}")
    sloping: Sentence = Sentence("unit {unit}: between {pieces}")
    by_mark: Sentence = Sentence("unit {unit}: piece {pieces}")
    folds: Sentence = Sentence("Cut along a fold too, laid in place: pieces {pieces}, {m} m.")
    dust: Sentence = Sentence(
        "Cut outside, water on the blade ({flow} l/min or more), mask with a factor of {mask}, fit-tested, "
        "eyes and ears covered, nobody down wind. {m} m of sawing in all."
    )
    sources: Sentence = Sentence("{first} {second}")

    mixes: str = "Mix card"
    mixes_words: str = (
        "Gauge by bucket or box, struck off level; a shovel is no measure until yours is measured. Water: add "
        "the last of it by eye, less for damp sand."
    )
    cold: Sentence = Sentence(
        "Nothing is mixed below {coldest} °C, or with frost in the forecast, or in rain that washes it out ({source})."
    )
    mixes_none: str = "No mortar and no concrete is mixed for this job."
    bed_mix: Sentence = Sentence("Bed, 1 of cement to {parts} of sharp sand")
    concrete_mix: Sentence = Sentence("Concrete, 1 of cement to {parts} of all-in ballast")
    pointing_mix: Sentence = Sentence("Pointing, 1 of cement to {parts} of soft sand")
    mix_heads: tuple[str, ...] = (
        *("for", "makes, l", "cement, kg", "cement, l", "buckets", "sand or ballast, l", "buckets", "shovels"),
        *("damp, l", "water, l"),
    )
    barrow: str = "one barrow"
    mixer: str = "one mixer"
    bag: Sentence = Sentence("one bag of {kg} kg")
    mix_all: Sentence = Sentence(
        "In all {m3} m³, what is lost included: {barrows} × barrow or {mixers} × mixer. Tick each mixer."
    )
    gear: Sentence = Sentence(
        "A bucket holds {bucket} l, a shovel {shovel} l, a mixer makes {mixer} l, a barrow carries {barrow} "
        "l ({source})."
    )
    own_gear: tuple[str, ...] = ("Your bucket holds, l", "Your shovel holds, l", "Your mixer makes, l")
    damp_unknown: str = (
        "How much damp sand bulks here is unknown: fill a bucket damp, then flood it and read how far it "
        "sinks. Write it:"
    )
    damp_known: Sentence = Sentence("Damp sand bulks {percent} % here, as entered.")
    cement_burns: str = "Wet cement burns without hurting at first: waterproof gloves, long sleeves, wash off at once."

    bags: str = "Bags against area laid"
    bags_words: str = (
        "Pieces are counted in the order of laying. Tick each bag or barrow as it is opened. More than stand "
        "here by then: the bed is too thick. Fewer: too thin. Stop and measure before the next course."
    )
    bags_area: Sentence = Sentence("{area}: bed {thick} mm, {kg} kg of cement to a square metre")
    bag_heads: tuple[str, ...] = (
        *("laid up to", "m²", "m² so far", "bags by then", "one bag is, mm of bed", "tick as opened"),
    )
    stage: Sentence = Sentence("course {course}, piece {piece}")
    from_before: str = "from the bag that is open"
    sand_area: Sentence = Sentence("{area}: bed {thick} mm of sand, {m3} m³ when pressed in")
    sand_heads: tuple[str, ...] = ("laid up to", "m²", "m² so far", "barrows by then", "tick as wheeled")
    sand_loose: Sentence = Sentence(
        "Barrows of {barrow} l of loose sand, {percent} % more than the bed measures, as entered."
    )
    sand_unknown: Sentence = Sentence(
        "Barrows of {barrow} l. How much more loose sand the bed takes than it measures is unknown: write it:"
    )
    bags_open: str = "Bags opened in all, and how many are left"
    bags_lost: Sentence = Sentence("Counted with {percent} % lost ({source}).")

    slabs: str = "Slab by slab"
    slabs_words: str = (
        "Read all four corners of a slab against the string, or with a wedge under a straight edge from what lies. "
        "Write what stands over as +, what lies under as −, in mm. Corners are lettered round the slab; A is where "
        "its course begins."
    )
    slabs_picture: str = (
        "Where to tap and what to hold: the cross is tapped, somebody stands on the black squares. The figures say how "
        "far each corner goes down beside the nearest one. Not held, the far corner comes up"
    )
    slabs_once: Sentence = Sentence(
        "Tap {share} % of what stands proud, no more than {once} mm at once. Then read all four again: a bed never "
        "gives evenly."
    )
    slabs_twist: Sentence = Sentence(
        "A − B + C − D, divided by four, is twist: no tap takes it out. More than {step} mm of it: another slab, "
        "or lift."
    )
    slabs_lift: Sentence = Sentence(
        "Lift and bed again: it rocks; a corner lies more than {step} mm under what lies beside it; more than {most} "
        "mm stand proud on the whole. A fresh bed sets it {proud} mm proud."
    )
    slabs_tool: str = "Read with"
    slabs_area: Sentence = Sentence("{area}: {many} pieces in the order of laying")
    slabs_thinnest: Sentence = Sentence("No bed thinner than {thinnest} mm.")
    slabs_ends: str = (
        "The first and the last piece of each course; those between follow the line. The phone has them all."
    )
    slabs_heads: tuple[str, ...] = ("piece", "again")
    slabs_none: str = "–"

    log: str = "Daily log"
    log_words: Sentence = Sentence("One for each day of work. {days}")
    log_days: Sentence = Sentence("{days} days are planned.")
    log_days_unknown: str = "How many days are planned is unknown."
    log_day: str = "Date"
    log_weather: str = "Weather; rain from, to"
    log_temperature: str = "Temperature at start, noon, end, °C"
    log_done: str = "Done today: what, which squares"
    log_hold: str = "Hold points passed, by whom"
    log_batches: str = "Batches: units, cement, dates on bags"
    log_problems: str = "Problems, what differs from the plan, who was told"
    log_visitors: str = "Visitors, what the customer said"
    log_photos: str = "Photos: number, of what"
    log_tomorrow: str = "Wanted for tomorrow"
    log_people: tuple[str, ...] = ("who", "from", "to", "hours", "at what")
    log_saw: str = "Minutes with saw, plate, breaker, and who"

    deliveries: str = "Delivery check"
    deliveries_words: str = (
        "Count before the lorry leaves. Write the batch of every pack. Damage: photo, and on the driver's "
        "ticket before signing."
    )
    delivery: Sentence = Sentence("{number} {supplier}, there on {day}")
    supplier_unknown: str = "supplier unknown"
    delivery_heads: tuple[str, ...] = ("what should come", "ordered", "kg", "came", "batch", "damage")
    in_pack: Sentence = Sentence("{many} × {unit}")
    with_sizes: Sentence = Sentence("{what}; in each pack: {sizes}")
    delivery_blank: str = "Any other delivery"
    delivery_form: tuple[str, ...] = ("Ticket number", "Date, time", "Driver")
    weight: Sentence = Sentence("About {kg} kg{partly}.")
    partly: str = ", of what has a known mass"
    received: str = "Received for the firm"

    waste: str = "Waste tickets"
    waste_words: str = "One line for each load or skip that leaves. Keep every ticket with the job."
    loads_one: Sentence = Sentence("{many} loads are likely: {low_m3} to {high_m3} m³ loose.")
    load_one: Sentence = Sentence("1 load is likely: {low_m3} to {high_m3} m³ loose.")
    loads: Sentence = Sentence("{low} to {high} loads are likely: {low_m3} to {high_m3} m³ loose.")
    loads_unknown: str = (
        "How many loads leave is unknown: the ground was not levelled, or no way of disposal is entered."
    )
    waste_heads: tuple[str, ...] = (
        *("no.", "planned", "date", "ticket", "carrier, registration", "what", "t or m³", "to where", "signed"),
    )


WORDS = SiteWords()
