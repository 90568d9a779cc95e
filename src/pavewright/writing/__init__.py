"""Writing: how numbers, dates and measures are written where the job is.

A job in Britain writes 10 May 2027 and 1 234.5; one in the United States May 10, 2027 and 1,234.5, and feet and inches
beside millimetres. Inside the program nothing changes: metric values are exact, and what stands beside them is rounded
where it is printed. Money is written by its currency, everywhere alike.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.writing._beside import beside, imperial_unit, in_imperial, under
    from pavewright.writing._counted import amount_text, counted_text
    from pavewright.writing._country import (
        COUNTRY_WORDS,
        HOUSE_REGIONS,
        MARKS,
        USUAL_MARKS,
        TradeWord,
        WordStatus,
        marks_of,
        words_of,
    )
    from pavewright.writing._lengths import feet, feet_decimal
    from pavewright.writing._manner import Measure, Writing, kept_now, now, written_as
    from pavewright.writing._marks import (
        length_mark,
        length_unit,
        level_mark,
        level_unit,
        off_mark,
        size_mark,
        size_unit,
        thick,
    )
    from pavewright.writing._sentence import Catalogue, Sentence
    from pavewright.writing._temperatures import celsius_to_fahrenheit, fahrenheit_to_celsius
    from pavewright.writing._terms import terms, terms_of
    from pavewright.writing._told import marked, told, told_all, worded
    from pavewright.writing._written import day_text, hour_text, number_text, short_day_text
else:
    __getattr__ = face(__name__)

__all__ = [
    "COUNTRY_WORDS",
    "HOUSE_REGIONS",
    "MARKS",
    "USUAL_MARKS",
    "Catalogue",
    "Measure",
    "Sentence",
    "TradeWord",
    "WordStatus",
    "Writing",
    "amount_text",
    "beside",
    "celsius_to_fahrenheit",
    "counted_text",
    "day_text",
    "fahrenheit_to_celsius",
    "feet",
    "feet_decimal",
    "hour_text",
    "imperial_unit",
    "in_imperial",
    "kept_now",
    "length_mark",
    "length_unit",
    "level_mark",
    "level_unit",
    "marked",
    "marks_of",
    "now",
    "number_text",
    "off_mark",
    "short_day_text",
    "size_mark",
    "size_unit",
    "terms",
    "terms_of",
    "thick",
    "told",
    "told_all",
    "under",
    "worded",
    "words_of",
    "written_as",
]
