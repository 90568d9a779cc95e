"""Sentences of the commands for photos and papers that are kept outside the database."""

from __future__ import annotations

from dataclasses import dataclass

from pavewright.writing import Catalogue, Sentence


@dataclass(frozen=True, slots=True)
class Words(Catalogue):
    """What the commands say."""

    checked: Sentence = Sentence(
        "{firm}: {outside} files outside read and whole ({size} MB), {inside} in the database; {missing} missing, "
        "{damaged} damaged, {unnamed} that nothing names."
    )
    missing: Sentence = Sentence("  missing  {digest}")
    damaged: Sentence = Sentence("  DAMAGED  {digest}")
    swept: Sentence = Sentence(
        "{firm}: {held} files, {deleted} deleted ({size} MB), {waiting} that nothing names and that wait."
    )
    moved_out: Sentence = Sentence("{firm}: {files} files moved out of the database ({size} MB).")
    moved_back: Sentence = Sentence("{firm}: {files} files moved back into the database ({size} MB).")
    mended: Sentence = Sentence("{firm}: {found} of {wanted} files brought back.")
    firm: Sentence = Sentence("firm {number}")


WORDS = Words()
"""In English."""
