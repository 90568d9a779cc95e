"""Fields of the document in the words of people, as the screens have them beside their boxes."""

from __future__ import annotations

import re

_OWN = {
    "base_from": "first end of the tape base",
    "base_to": "other end of the tape base",
    "kg_each": "weight",
    "one_in": "fall, 1 in",
    "x_mm": "distance east",
    "y_mm": "distance north",
    "dpc_level_mm": "level of the DPC",
    "per_pack": "number in a pack",
    "start": "point where it starts",
    "end": "point where it ends",
    "by": "side of the line",
}
"""Fields whose own name says too little by itself."""
_ENDINGS = ("_minor_per_hour", "_kg_per_m3", "_m_per_s", "_percent", "_tonnes", "_minor", "_deg", "_min", "_mm", "_m2",
            "_m3", "_m")  # fmt: skip
"""Units at the end of a name; the box beside it and the sentence around it say them."""
_CAPITALS = re.compile(r"\b(dpc|cbr)\b")


def field_words(field: str) -> str:
    """Return the name of a field in words, without its unit.

    >>> field_words("base_to"), field_words("length_mm"), field_words("dpc_level_mm"), field_words("misclosure_rule")
    ('other end of the tape base', 'length', 'level of the DPC', 'misclosure rule')
    """
    if field in _OWN:
        return _OWN[field]
    ending = next((each for each in _ENDINGS if field.endswith(each) and field != each[1:]), "")
    stem = field[: len(field) - len(ending)].replace("_", " ")
    return _CAPITALS.sub(lambda found: found[0].upper(), stem)
