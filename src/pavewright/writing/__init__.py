"""Writing: how numbers, dates and measures are written where the job is.

A job in Britain writes 10 May 2027 and 1 234.5; one in the United States May 10, 2027 and 1,234.5, and feet and inches
beside millimetres. Inside the program nothing changes: metric values are exact, and what stands beside them is rounded
where it is printed. Money is written by its currency, everywhere alike.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.writing._beside import beside, beside_all
    from pavewright.writing._lengths import feet, feet_decimal
    from pavewright.writing._manner import Measure, Writing, now, written_as
    from pavewright.writing._marks import beside_now, level_mark, size_mark, thick
    from pavewright.writing._temperatures import celsius_to_fahrenheit, fahrenheit_to_celsius
    from pavewright.writing._terms import terms, terms_all, terms_of
    from pavewright.writing._written import day_text, hour_text, number_text
else:
    __getattr__ = face(__name__)

__all__ = [
    "Measure",
    "Writing",
    "beside",
    "beside_all",
    "beside_now",
    "celsius_to_fahrenheit",
    "day_text",
    "fahrenheit_to_celsius",
    "feet",
    "feet_decimal",
    "hour_text",
    "level_mark",
    "now",
    "number_text",
    "size_mark",
    "terms",
    "terms_all",
    "terms_of",
    "thick",
    "written_as",
]
