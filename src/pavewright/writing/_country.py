"""What differs from country to country, as data: words of the trade, and the marks in numbers.

The scripts of the pages read the same table: tools/make_country.py writes it for them.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import StrEnum


class WordStatus(StrEnum):
    """How well a word is known: common practice there, or from memory, to be checked with somebody of the trade."""

    PRACTICE = "C"
    MEMORY = "M"


@dataclass(frozen=True, slots=True)
class TradeWord:
    """A word of the glossary and what it is called in a region.

    Attributes:
        here: The word as this program uses it.
        there: What it is called in the region.
        status: How well that is known.
        source: Where it is from.
    """

    here: str
    there: str
    status: WordStatus
    source: str


_C, _M = WordStatus.PRACTICE, WordStatus.MEMORY
_TRADE, _SPELLING = "ordinary word of the trade", "spelling of the country"


def _words(status: WordStatus, source: str, **pairs: str) -> tuple[TradeWord, ...]:
    """Return words; a name is the word here with a line below for a space and two for a hyphen, "one/several"."""
    found = []
    for name, there in pairs.items():
        one = name.replace("__", "-").replace("_", " ")
        single, _, several = there.partition("/")
        found.append(TradeWord(one, single, status, source))
        if several:
            found.append(TradeWord(_several(one), several, status, source))
    return tuple(found)


_ENDS_IN_IES = re.compile("[^aeiou]y$")


def _several(word: str) -> str:
    return f"{word[:-1]}ies" if _ENDS_IN_IES.search(word) else f"{word}s"


_METRES = {"metre": "meter/meters", "millimetre": "millimeter/millimeters", "litre": "liter/liters"}
_SPELT = {"colour": "color/colors", "centre": "center/centers", "grey": "gray", "levelled": "leveled"}
_NORTH_AMERICA = {
    "kerb": "curb/curbs",
    "skip": "dumpster/dumpsters",
    "gully": "area drain/area drains",
    "yard_gully": "area drain/area drains",
    "soakaway": "dry well/dry wells",
    "footway": "sidewalk/sidewalks",
    "lorry": "truck/trucks",
    "sub__base": "aggregate base/aggregate bases",
    "laying_course": "setting bed/setting beds",
    "formation": "subgrade",
}
COUNTRY_WORDS: dict[str, tuple[TradeWord, ...]] = {
    "US": (
        *_words(
            _C,
            _TRADE,
            **_NORTH_AMERICA,
            quotation="bid/bids",
            snagging="punch list",
            slab="paver/pavers",
        ),
        *_words(
            _M,
            _TRADE,
            programme="schedule/schedules",
            reduced_level="elevation/elevations",
            stage_payment="progress payment/progress payments",
            retention="retainage",
            bulking="swell",
        ),
        *_words(_C, _SPELLING, **_METRES, **_SPELT),
    ),
    "CA": _words(
        _M,
        _TRADE,
        **_NORTH_AMERICA,
        slab="paver/pavers",
        programme="schedule/schedules",
    ),
    "AU": (
        *_words(
            _C,
            _TRADE,
            skip="skip bin/skip bins",
            sub__base="road base/road bases",
            slab="paver/pavers",
            formation="subgrade",
        ),
        *_words(
            _M,
            _TRADE,
            gully="grated pit/grated pits",
            yard_gully="grated pit/grated pits",
            soakaway="soakwell/soakwells",
            footway="footpath/footpaths",
            lorry="truck/trucks",
        ),
    ),
    "NZ": _words(
        _M,
        _TRADE,
        skip="skip bin/skip bins",
        sub__base="basecourse/basecourses",
        soakaway="soak pit/soak pits",
        footway="footpath/footpaths",
        lorry="truck/trucks",
        formation="subgrade",
    ),
    "IE": _words(_M, _TRADE, footway="footpath/footpaths"),
}
"""What words of the glossary are called, by region; a region that is not named uses those of this program."""

_COMMA = (
    "AD AR AT AW AZ BA BE BI BN BO BR CF CL CO CY DE DK DZ EA EC ES FO GL GQ GR HR IC ID IS IT LA LB LU LY MA MD ME MK "
    "MR NL RO RS RW SI SM SN SR TN TR UY VA VE VN"
)
_SPACE = (
    "AL AM AO AX BG BY CR CV CZ EE FI GE GW HT HU KG KZ LT LV MZ NA NO PL PT RU SE SJ SK ST TJ TL TM UA UZ XK ZA "
    "BF BJ BL CD CG CI CM DJ FR GA GF GN GP MC MF MQ MU NC PF PM RE SC TG WF YT"
)
HOUSE_REGIONS = frozenset({"GB", "IE"})
"""Regions written in the manner of this program: thin spaces between thousands, the day before the month."""
MARKS: dict[str, tuple[str, str]] = {
    **dict.fromkeys(_COMMA.split(), (".", ",")),
    **dict.fromkeys(_SPACE.split(), ("\u202f", ",")),
    **dict.fromkeys(("CH", "LI"), ("\u2019", ".")),
    **dict.fromkeys(HOUSE_REGIONS, ("\u202f", ".")),
}
"""Mark between thousands and decimal mark, as the Unicode CLDR gives them for the main language of a region."""
USUAL_MARKS = (",", ".")
"""Marks of every other region."""


def marks_of(region: str) -> tuple[str, str]:
    """Return the mark between thousands and the decimal mark of a region.

    >>> marks_of("DE"), marks_of("US")
    (('.', ','), (',', '.'))
    """
    return MARKS.get(region, USUAL_MARKS)


def words_of(region: str) -> dict[str, str]:
    """Return what words of the glossary are called in a region.

    >>> words_of("US")["sub-base"], words_of("US")["gullies"], words_of("GB")
    ('aggregate base', 'area drains', {})
    """
    return {each.here: each.there for each in COUNTRY_WORDS.get(region, ())}
