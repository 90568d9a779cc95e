"""Sentences of handing out what is kept, and of erasing a person."""

from __future__ import annotations

from dataclasses import dataclass

from pavewright.writing import Catalogue, Sentence


@dataclass(frozen=True, slots=True)
class Words(Catalogue):
    """What is answered where it cannot be done."""

    from_elsewhere: str = "A page from elsewhere may not ask for this."
    nobody: str = "There is no such person in the firm."
    several: str = "This person belongs to several firms: the command pavewright people does this."
    typed_wrong: Sentence = Sentence("Type {name} to erase this person. Nothing was changed.")
    last_owner: str = "A firm has at least one owner: make somebody else an owner first. Nothing was changed."


WORDS = Words()
"""In English."""
