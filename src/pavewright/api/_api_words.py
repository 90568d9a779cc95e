"""The words of the way in for other programs."""

from __future__ import annotations

from dataclasses import dataclass

from pavewright.writing import Catalogue, Sentence


@dataclass(frozen=True, slots=True)
class ApiWords(Catalogue):
    """The words of the way in for other programs."""

    no_pandas: str = "Tables need the library pandas: install pavewright with the extra frames, or take rows()."
    no_table: Sentence = Sentence("There is no table {name}. Tables: {known}.")


WORDS = ApiWords()
