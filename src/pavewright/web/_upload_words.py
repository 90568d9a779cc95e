"""Sentences about what may be sent."""

from __future__ import annotations

from dataclasses import dataclass

from pavewright.writing import Catalogue, Sentence


@dataclass(frozen=True, slots=True)
class Words(Catalogue):
    """What is said of a file that is not taken, and how each kind is called."""

    content: Sentence = Sentence("That is not {what} by its content: it has to be {takes}.")
    too_much: Sentence = Sentence("That is more than is taken at once: {what} may hold {most}.")
    change: str = "a change or a job document"
    form: str = "a form"
    photo: str = "a photo"
    logo: str = "a logo"
    prices: str = "a price list"
    points: str = "a file of points or a drawing"
    weather: str = "a file of daily weather"
    stamp: str = "the timestamp of an authority"
    backup: str = "a backup"
    heads: str = "| what is sent | max | by its content | max pixels |"
    strictly: str = "read strictly as JSON or as a form"
    read_whole: str = "anything, read strictly as DER"
    no_picture: str = "no picture"
    infected: Sentence = Sentence("The scan of this machine refused {what}: nothing of it was kept.")
    not_scanned: Sentence = Sentence(
        "{what} could not be scanned, so nothing of it was kept: tell whoever runs this server."
    )


WORDS = Words()
"""In English."""
