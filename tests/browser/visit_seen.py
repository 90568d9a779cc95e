"""The second half of a first visit: what is seen at the house, the ground, the paving and the price."""

from __future__ import annotations

from visit_measured import FRAME, read_staff, tape_as_asked

COVER = (1500, -2600)
GULLY = (4300, -2400)
"""Where a chamber cover and a gully really stand on the paving."""
SILL_MM, BRICK_MM, COVER_MM, GRATING_MM = 10_150, 10_075, 9838, 9790


def in_the_wall(hand):
    """A door with its sill and an air brick, placed by touch on the wall and then by a tape from its corner."""
    hand.touch("Done")
    hand.touch("Done")  # the datum is the damp-proof course of the only wall
    hand.spot(2800, 0, FRAME)
    hand.number(1900)
    hand.touch("1800 mm")
    read_staff(hand, SILL_MM)
    hand.touch("Done")
    hand.spot(5000, 0, FRAME)
    hand.number(5050)
    read_staff(hand, BRICK_MM)
    hand.touch("Done")


def in_the_ground(hand, places):
    """A cover that may be reset and a gully that runs, each by two tapes and the staff."""
    hand.spot(*COVER, FRAME)
    hand.touch("Two tapes")
    places["Cover"] = COVER
    assert tape_as_asked(hand, places, most=2) == 2
    hand.touch("600 × 450")
    hand.touch("It may be reset")
    read_staff(hand, COVER_MM)
    hand.touch("Done")
    hand.spot(*GULLY, FRAME)
    hand.touch("Two tapes")
    places["Gully"] = GULLY
    assert tape_as_asked(hand, places, most=2) == 2
    hand.touch("It is there")
    read_staff(hand, GRATING_MM)
    hand.number(420)
    hand.touch("It runs")
    hand.touch("Surface-water drain")
    hand.touch("The paving: fold it to it")
    hand.touch("Done")


def round_the_house(hand):
    """Services that nobody could see, a trial hole, no trees, the way in, and questions left open."""
    hand.touch("Could not see")
    hand.touch("Sandy clay")
    hand.touch("150 mm")
    hand.touch("None", exact=True)
    hand.touch("None here")
    hand.touch("900 mm")
    hand.touch("10000 mm")
    hand.touch("None", exact=True)
    hand.touch("On the drive")
    hand.touch("Later")
    hand.touch("Could not see", within="#foot")


def priced(hand):
    """A slab that is typed, the common way of laying it, and prices one after another."""
    hand.touch("Slab")
    hand.touch("600 mm")
    hand.touch("600 mm")
    hand.touch("40 mm")
    hand.touch("concrete: about")
    hand.number(20)
    hand.number(238)
    hand.touch("Take this")
    hand.number("28.5")
    hand.touch("2", exact=True)
    hand.touch("4 weeks")
    for price in ("6.4", "54", "52", "310"):  # cement, ballast, sharp sand, a skip
        hand.number(price)
    hand.touch("10 %")
    hand.touch("20 %")
    hand.touch("20 %")
