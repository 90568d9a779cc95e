"""The words of the survey form, in one place."""

from __future__ import annotations

from dataclasses import dataclass

from pavewright.writing import Catalogue, Sentence


@dataclass(frozen=True, slots=True)
class FormWords(Catalogue):
    """Every sentence of the survey form; names in braces are filled in."""

    title: str = "Survey form"
    who: str = "Who, where, when"
    job: str = "Job"
    client: str = "Customer"
    address: str = "Address"
    phone: str = "Telephone"
    visited: str = "Date of the visit"
    surveyor: str = "Measured by"
    weather: str = "Weather"
    instrument: str = "Level, staff, tape"
    datum: str = "Datum: what, where, taken as"
    datum_open: str = "not chosen yet"
    next_open: str = "Still open, what to do first first"
    open_more: Sentence = Sentence("{count} more: see the questions of the walk round and the working screen.")
    not_looked: str = "What is open was not looked for here: see the working screen."
    none_open: str = (
        "The plan needs nothing more from the house. Questions of the walk round without an answer stand below."
    )
    how: str = (
        "Write with a pencil. An empty box means not known. Write “none” where there is nothing, “not seen” "
        "where you could not look, and never zero for something that you did not measure."
    )
    sketch: str = "Sketch"
    sketch_words: str = (
        "Name every corner with a letter. Draw walls double, doors with both jambs, and from where each photo "
        "was taken."
    )
    tapes: str = "Tapes"
    tapes_words: str = (
        "Measure every side and both diagonals. Four sides and two diagonals leave one spare tape: it shows "
        "that one is wrong and not which. Tie two corners to the house as well."
    )
    tapes_heads: tuple[str, ...] = ("from", "to", "m, first", "m, again", "note")
    tape_next: Sentence = Sentence("helps most, about {length} m")
    tape_doubt: str = "in doubt: measure again"
    offsets: str = "Offsets of curves, points on walls"
    offsets_heads: tuple[str, ...] = ("from", "to", "along, m", "off, m", "left or right", "what")
    levels: str = "Level book"
    levels_words: str = (
        "Begin and end on a point of known level. A change point has a foresight and a backsight on one line. "
        "A larger reading is lower. Fill in rise and fall, or the height of collimation: not both by halves."
    )
    levels_heads: tuple[str, ...] = ("point", "back", "inter", "fore", "rise", "fall", "collim.", "level", "remark")
    not_read: str = "not read yet"
    known_level: str = "known: begin and end here"
    sum_row: str = "Sums"
    checks: str = "Checks of the book"
    check_one: str = "Sum of backsights less sum of foresights"
    check_two: str = "Sum of rises less sum of falls: the same"
    check_three: str = "Last level less first level: the same"
    check_four: str = "Misclosure: closing level found less known"
    check_limit: Sentence = Sentence("at most {limit} mm × √set-ups")
    check_limit_from: Sentence = Sentence("Limit of the misclosure: {source}.")
    collimation: str = (
        "By collimation: level + backsight = height of collimation; that less each reading = level. The first "
        "check and the third then say nothing of intermediate sights: read two of those twice."
    )
    walk: str = "Walk round the house"
    walk_words: str = (
        "Answer every question: tick, ring one of the usual answers, or write. What could not be seen becomes an "
        "assumption of the quotation."
    )
    walk_heads: tuple[str, ...] = ("question", "none", "not seen", "what was seen")
    usual: Sentence = Sentence("{question} Ring: {answers}.")
    known: Sentence = Sentence("Known: {what}")
    level_unknown: str = "unknown"
    known_tapes: Sentence = Sentence("{count} tapes, {spare} spare")
    known_spots: Sentence = Sentence("{count} spot levels")
    known_service: Sentence = Sentence("{name}, depth {depth}")
    taken: Sentence = Sentence(
        "{count} tapes are taken already; they stand with what they read on the sheet Adjusted survey."
    )
    none: str = "none"
    answered: str = "Answered already"
    not_seen: str = "could not see: taken as given until seen"
    photos: str = "Photos: number, from where, of what"
    ground: str = "Trial hole: depth of topsoil, what lies under it, water in it"
    adjusted: str = "Adjusted survey"
    rejected: str = "Rejected or in doubt"
    kept_in: str = (
        "No reading is struck out by itself. These are in doubt, and pull at the points until they are measured again:"
    )
    tape_slip: Sentence = Sentence("Tape {start}–{end}, read {read} m: looks {off} mm too {way}.")
    tape_alike: Sentence = Sentence("One of the tapes {names} is wrong; nothing separates them.")
    reading_doubt: Sentence = Sentence("{words}: {off} mm off.")
    book_open: Sentence = Sentence(
        "Level book {name}: {off} mm off, more than {limit} mm: not distributed, read it again."
    )
    none_rejected: Sentence = Sentence("None: {spare} spare readings check the others, and none contradicts them.")
    unchecked: str = "Not known: nothing checks these readings, so none can be rejected. Take one more."
    partly: str = "Not every reading is checked by others; see the column “checked by others”."


WORDS = FormWords()
