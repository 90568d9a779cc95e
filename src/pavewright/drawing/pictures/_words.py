"""What each picture shows, for who cannot see it: the only words of the pictures, and none of them is printed."""

from __future__ import annotations

from dataclasses import dataclass

from pavewright.writing import Catalogue, Sentence


@dataclass(frozen=True, slots=True)
class PictureWords(Catalogue):
    """What is said of each picture."""

    setting_out: str = "Setting out, in pictures"
    laying: str = "Laying, in pictures"
    cuts: str = "Sawing, in pictures"
    mixes: str = "Mixes, in pictures"
    key: str = "What the signs stand for"

    plan_of_pegs: str = (
        "Pegs with their numbers, strings dashed, base line thick, sides and diagonals with their lengths, services "
        "with a sign for what they carry; a crossed ring where no pin is driven."
    )
    heights: str = (
        "Below the string at each peg: how far down to the finished paving, the bed, the base and the formation, in "
        "millimetres."
    )
    plan_of_pieces: Sentence = Sentence(
        "Area {area}: every piece with its number where it has room, cut ones hatched, a black block and an arrow "
        "where laying begins."
    )
    unit: Sentence = Sentence(
        "{unit}: its sides, its thickness, its weight with one person or two, the joint between two, and the bed under "
        "it: full, never in dabs."
    )
    set_ups: Sentence = Sentence(
        "Area {area}: each setting of the saw with the distance from the fence, how many cuts it makes, and the pieces "
        "that come of it. Water on the blade, mask, glasses, ear defenders."
    )
    mix_rows: str = (
        "Each mix by what it is for: bags of cement and buckets of sand or ballast and water for one mixer, and how "
        "many mixers the job takes."
    )
    key_rows: str = (
        "Signs beside what they stand for: peg, place with no pin, dig by hand, electricity, gas, water, drain, "
        "telephone, something unknown, start of laying, cut piece, two persons, damp sand."
    )


WORDS = PictureWords()
"""The words in English."""
