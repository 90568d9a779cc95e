"""The words of the order of work, of strings as they hang and of lost pegs, in one place."""

from __future__ import annotations

from dataclasses import dataclass

from pavewright.setting_out import InTheWay
from pavewright.setting_out.errors import FixedThing, ToolKey
from pavewright.setting_out.hanging import HungBy
from pavewright.writing import Catalogue, Sentence

TOOLS = {
    ToolKey.TAPE: "class of the tape",
    ToolKey.TAPE_LENGTH: "length of the tape",
    ToolKey.TAPE_READ: "reading of the tape",
    ToolKey.SQUARE: "square",
    ToolKey.LEVEL: "level",
    ToolKey.STRING: "mass of the string",
    ToolKey.PULL: "pull on the string",
}
"""What may be assumed of the tools."""
FIXED = {
    FixedThing.WALL_START: Sentence("start of wall {name}"),
    FixedThing.WALL_END: Sentence("end of wall {name}"),
    FixedThing.JAMB_LEFT: Sentence("first jamb of {name}"),
    FixedThing.JAMB_RIGHT: Sentence("second jamb of {name}"),
    FixedThing.OBSTACLE: Sentence("corner {number} of {name}"),
}
"""What stays, and where on it a tape is held."""
RESTS = {HungBy.READ: "read", HungBy.ONE_END: "one end read", HungBy.PLANNED: "planned"}
"""What the height of a string rests on."""
WAYS = {
    InTheWay.HOUSE: "a house",
    InTheWay.WALL: "a wall",
    InTheWay.BOUNDARY: "a boundary",
    InTheWay.OBSTACLE: "an obstacle",
    InTheWay.TREE: "a tree",
    InTheWay.HOLE: "a hole",
}
"""What stands in the way of a swung tape."""


@dataclass(frozen=True, slots=True)
class OrderWords(Catalogue):
    """Every sentence of these sheets; names in braces are filled in."""

    title: str = "Setting out: order of work"
    first: str = (
        "One step after the other, each with its check before the next. A check that is off by more than its limit "
        "means that something is wrong: tape that corner again."
    )
    assumed: Sentence = Sentence(
        "Not entered, and assumed as usual: {tools}. With worse tools corners come out farther off than stated here."
    )
    entered: str = "Worked out for the tools that were entered."
    within: Sentence = Sentence(
        "Within: about {percent} of 100 corners set out so lie no farther off, against the start and the direction of "
        "the base line. Shows: a corner that one wrong reading brings so far out, or farther, most likely passes the "
        "limit of a check."
    )
    heads: tuple[str, ...] = ("step", "what", "how", "within", "check", "reads", "off by up to", "shows", "found")
    base: Sentence = Sentence("from {start}: {length} m, {area}")
    two_tapes: Sentence = Sentence("{first} m from {one}, {second} m from {two}; they cross at {cut}°")
    left: Sentence = Sentence("{along} m along from {one}, {off} m square left")
    right: Sentence = Sentence("{along} m along from {one}, {off} m square right")
    twice: str = "tape it twice, the second time from the other end"
    later: str = "tape it twice; the next corners prove it"
    check: Sentence = Sentence("{start} to {end}")
    part: str = "not all"
    strings: Sentence = Sentence(
        "Strings go up last, each end at its height. Check: where two cross at a peg they differ by no more than "
        "{limit} mm, and the drop from end to end is that of the table."
    )

    hung: str = "Strings as they hang"
    hung_first: Sentence = Sentence(
        "Down from the string as it hangs, sag taken off ({mass} g to a metre, pulled as by {pull} kg). A string that "
        "nobody has read yet is taken to hang as planned: read both of its ends, type them in, print this anew."
    )
    hung_heads: tuple[str, ...] = ("peg", "string", "rests on", "string level", "sag")
    prop: Sentence = Sentence("Put a peg under the middle of {strings}: they sag {from_mm} mm or more.")
    prop_item: Sentence = Sentence("{name} ({sag} mm)")
    stray: Sentence = Sentence(
        "Heights read at {pegs} are not used: no peg of that name stands there any more. Read them again."
    )

    staff: str = "Staff readings to show"
    staff_first: Sentence = Sentence("Heights shown with one set-up are good to {limit} mm, {percent} times in 100.")
    staff_set: Sentence = Sentence("{name}: height of sight {height}, from {back} mm on {point}.")
    staff_unknown: Sentence = Sentence("{name}: the level of {point} is not known, so no reading follows from it.")
    staff_drop: Sentence = Sentence(
        "No instrument is set up yet. Read the staff on {point}, level {level}, and add the figure of the table: that "
        "is what the staff shows."
    )
    staff_none: str = "No point of known level is entered: no staff reading follows. Enter a benchmark first."
    staff_above: str = "above"
    added: Sentence = Sentence("+{drop}")
    taken: Sentence = Sentence("−{drop}")

    lost: str = "A peg is lost"
    lost_first: str = "Two tapes from things that stay bring a pin back. Tapes that cross flat are pulled twice."
    lost_heads: tuple[str, ...] = ("peg", "first tape", "m", "second tape", "m", "cross at", "within")
    flat: Sentence = Sentence("{cut}° flat")
    steep: Sentence = Sentence("{cut}°")
    not_back: Sentence = Sentence(
        "No two things that stay are seen from {pegs} at a good angle: set these out again by the order of work."
    )

    curves: str = "Arcs"
    swing: Sentence = Sentence(
        "{side} of {area}: swing {radius} m about a pin {along} m {way} and {off} m square {hand} of it."
    )
    no_swing: Sentence = Sentence(
        "{side} of {area}, radius {radius} m: {why}, so no tape is swung. Set it off the string between its ends."
    )
    short: str = "the tape is too short"
    blocked: Sentence = Sentence("{what} stands in the way")
    offsets: Sentence = Sentence("{number}. string of {side}, {length} m: along and off it, m")
    pair: Sentence = Sentence("{along}: {off}")
    onward: str = "along the base line"
    back: str = "back from the start of the base line"
    to_left: str = "left"
    to_right: str = "right"


WORDS = OrderWords()
