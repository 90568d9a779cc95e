"""The words of the papers on hold points as they were read, and on what the dig found."""

from __future__ import annotations

from dataclasses import dataclass

from pavewright.as_laid import Verdict
from pavewright.hold_points import DrainStanding, TakeUp
from pavewright.job.on_site import FoundKind, HoldCheckKind, HoldLayer
from pavewright.writing import Catalogue, Sentence


@dataclass(frozen=True, slots=True)
class HeldWords(Catalogue):
    """Every sentence of these papers; names in braces are filled in."""

    read: str = "Hold points as they were read"
    read_words: Sentence = Sentence(
        "Of several looks at one hold point the last one stands here. A reading is trusted to {trusted} standard "
        "deviations: nearer to a limit it is inconclusive. Between the places nothing was measured."
    )
    heads: tuple[str, ...] = ("hold point", "places", "state", "last looked at")
    surface: Sentence = Sentence("{what}, {where}")
    places: Sentence = Sentence("{read} of {all}")
    open_one: str = "not looked at"
    undecided: str = "not decided"
    unread: str = "not read"
    looked: Sentence = Sentence("{on} {by}")
    one: Sentence = Sentence("{what}, {where}: {state}")
    doubt: Sentence = Sentence("Read with {instrument}; one reading is good to {sd} mm (one standard deviation).")
    no_instrument: str = "an instrument that nobody named"
    place_heads: tuple[str, ...] = ("place", "planned", "found", "off, mm", "state")
    place_limit: Sentence = Sentence("Within +{above} / −{below} mm of the level planned. {source}.")
    no_limit: str = "No figure is known for this layer: these readings are held to nothing."
    low: Sentence = Sentence("Low places take {m3} m³ of {what} (from {least} to {most}): {told}.")
    high: Sentence = Sentence("High places: {m3} m³ to take off (from {least} to {most}): {told}.")
    hours: Sentence = Sentence("{hours} hours")
    days: Sentence = Sentence("{days} days of the crew")
    cost: Sentence = Sentence("about {money} of own cost, before overhead, margin and tax")
    no_cost: str = "cost not known: a price is missing"
    packs: Sentence = Sentence("{packs} bags of {material}")
    tonnes: Sentence = Sentence("{tonnes} t of {material}")
    amount: Sentence = Sentence("{amount} {unit} of {material}")
    loose: Sentence = Sentence("{m3} m³ loose to cart away")
    whose: str = (
        "Whether the firm or the customer bears what is off is not known to the program: it stands in the contract."
    )
    fall: Sentence = Sentence("Fall found {fall}, smallest {least}: {state}.")
    fall_unknown: str = "Its fall was not read at two places, or no smallest fall is known for its pipe."
    test: Sentence = Sentence("Test: {standing}.")

    found: str = "What the dig found"
    found_words: str = (
        "Each of these is in the plan, the price and the days. Services: stop, make safe, trace and ask before "
        "digging on."
    )
    found_heads: tuple[str, ...] = ("what", "in", "size", "deep, mm", "on", "by")
    square: Sentence = Sentence("{m2} m²")
    metres: Sentence = Sentence("{m} m")
    drawn: str = "as drawn"
    all_of_it: str = "all of it"
    name: Sentence = Sentence("{name} ({kind})")
    volumes: Sentence = Sentence("{name}: {m3} m³ below formation dug and filled")
    broken: Sentence = Sentence("{name}: {m3} m³ broken out")

    differs: str = "The dig differs"
    differs_words: str = (
        "Stop, photograph it with a staff in it, fill this in, and have it in the job before work goes on there. A "
        "drain or a cable: whose it is and whether it is live is not known; ask its owner."
    )
    differs_asked: tuple[str, ...] = (
        "What was found: deeper, soft, concrete, a drain, else",
        "Where: area, from which pegs",
        "Size: length and width, or length of the drain",
        "How deep, from the string, and planned there",
        "Photos, numbers",
        "Found by, date and time",
        "Customer informed: who, how, when",
        "Word to go on, or what first",
    )


KINDS = {
    HoldCheckKind.FORMATION: "Formation",
    HoldCheckKind.DRAIN: "Drain",
    HoldCheckKind.FIRST_ROW: "First row",
    HoldCheckKind.BED: "Bed",
    HoldCheckKind.LAYER: "Layer",
}
LAYERS = {
    HoldLayer.CAPPING: "Top of capping",
    HoldLayer.SUB_BASE: "Top of sub-base",
    HoldLayer.BASE: "Top of base",
}
STATES = {Verdict.PASSES: "pass", Verdict.FAILS: "FAIL", Verdict.INCONCLUSIVE: "inconclusive"}
FOUND = {
    FoundKind.DEEPER: "deeper",
    FoundKind.SOFT_SPOT: "soft spot",
    FoundKind.CONCRETE: "concrete",
    FoundKind.DRAIN: "drain",
}
TAKES = {TakeUp.STONE: "stone", TakeUp.CONCRETE: "concrete", TakeUp.BED: "bed", TakeUp.DIG: "dig"}
TESTS = {
    DrainStanding.TIGHT: "it holds",
    DrainStanding.LEAKS: "it leaks",
    DrainStanding.TOO_SHORT: "too short to decide",
    DrainStanding.NOT_KNOWN: "too little was written down to say",
    DrainStanding.RUNS: "water was seen to run through; that does not show that it is tight",
    DrainStanding.RUNS_NOT: "water did not come out",
    DrainStanding.UNTESTED: "not tested",
}
HELD = HeldWords()
