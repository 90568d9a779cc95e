"""Sentences of the commands that copy jobs away and bring them back."""

from __future__ import annotations

from dataclasses import dataclass

from pavewright.writing import Catalogue, Sentence


@dataclass(frozen=True, slots=True)
class Words(Catalogue):
    """What the commands say."""

    copied: Sentence = Sentence("{told} of {store} copied to {to}, {size} MB.")
    locked: str = (
        "It is locked: nobody can read it without the passphrase, not even you. Keep the passphrase somewhere else."
    )
    unlocked: str = "It is not locked and holds what people sign in by: keep it where only you reach it."
    firms: Sentence = Sentence("It holds {firms} firms.")
    first_firm_only: str = "It holds the first firm and the people of all; for every firm: pavewright backup --whole"
    brought_back: Sentence = Sentence("{told} brought back from {backup} to {store}.")
    server: str = "the database of the server"
    moved_out: Sentence = Sentence("{files} photos and papers of it were moved to {place}.")
    not_moved: str = (
        "Jobs, photos and papers were brought back all the same, into the database: pavewright files move tries again."
    )
    aside: Sentence = Sentence("What was kept there before is in {aside}.")
    copy_of: Sentence = Sentence("Copied {made} UTC by version {program}, firms: {firms}.")
    installation: str = "installation"
    firm: Sentence = Sentence("firm {number}")
    same: str = "same   "
    differs: str = "DIFFERS"
    table: Sentence = Sentence("{mark}  {of}, {table}: {rows} of {copied} rows")
    files: Sentence = Sentence(", {files} files of {size} MB")
    drill_failed: str = (
        "Something came back different from what was copied: do not trust this backup, make another one."
    )
    drill_held: Sentence = Sentence("All came back as it was copied: {tables} tables, {rows} rows, {files} files.")
    lock_by: str = "Passphrase that locks the copy"
    open_by: str = "Passphrase of the copy"
    short: Sentence = Sentence("Give a passphrase of {signs} characters or more; four words in a row are good.")


WORDS = Words()
"""In English."""
