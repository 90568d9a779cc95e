"""Fields of the document in the words of people, as the screens have them beside their boxes."""

from __future__ import annotations

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
_UNITS = frozenset({
    ("minor", "per", "hour"), ("kg", "per", "m3"), ("m", "per", "s"), ("percent",), ("tonnes",), ("minor",), ("deg",),
    ("min",), ("mm",), ("m2",), ("m3",), ("m",),
})  # fmt: skip
"""Units at the end of a name; the box beside it and the sentence around it say them."""
_CAPITALS = {"dpc": "DPC", "cbr": "CBR"}


def field_words(field: str) -> str:
    """Return the name of a field in words, without its unit.

    >>> field_words("base_to"), field_words("length_mm"), field_words("dpc_level_mm"), field_words("misclosure_rule")
    ('other end of the tape base', 'length', 'level of the DPC', 'misclosure rule')
    >>> field_words("density_kg_per_m3"), field_words("min")
    ('density', 'min')
    """
    if field in _OWN:
        return _OWN[field]
    words = tuple(field.split("_"))
    unit = next((count for count in (3, 1) if len(words) > count and words[-count:] in _UNITS), 0)
    return " ".join(_CAPITALS.get(word, word) for word in words[: len(words) - unit])
