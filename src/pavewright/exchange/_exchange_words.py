"""The words of the files for other programs."""

from __future__ import annotations

from dataclasses import dataclass

from pavewright.writing import Catalogue, Sentence


@dataclass(frozen=True, slots=True)
class ExchangeWords(Catalogue):
    """The words of the files for other programs."""

    local: str = (
        "Local coordinates: x to the right and y up the sheet of the site grid, levels above the datum of the job. "
        "Where on the earth that lies is not known."
    )
    placed: str = "Placed on the earth by one point and the bearing of north that the job gives."
    no_library: str = "A building model needs the library ifcopenshell: install pavewright with the extra ifc."
    no_place: str = (
        "GeoJSON takes longitude and latitude, and a job knows its own grid only. Say where a point of it lies with "
        "--at LATITUDE,LONGITUDE, or ask for local metres with --local."
    )
    no_north: str = (
        "The job does not say where north is: enter the bearing of north in the job, or ask for local metres."
    )
    no_point: Sentence = Sentence("The job has no point {name} with a place on the plan.")
    not_on_earth: str = "A latitude is between -85 and 85 degrees, a longitude between -180 and 180."
    not_whole: Sentence = Sentence("Not enough is known for the model yet. {missing}")
    ground: str = "Ground as it was read"
    dig: Sentence = Sentence("Dig under {area}")
    stepped: Sentence = Sentence("Tread {number}")
    beside: Sentence = Sentence("{restraint} along {side}")


WORDS = ExchangeWords()
