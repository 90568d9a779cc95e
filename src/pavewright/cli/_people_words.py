"""Sentences of the commands that erase a person and hand out what is kept."""

from __future__ import annotations

from dataclasses import dataclass

from pavewright.writing import Catalogue, Sentence


@dataclass(frozen=True, slots=True)
class Words(Catalogue):
    """What the command says."""

    nobody: str = "Nobody signs in by that name."
    sure: Sentence = Sentence("Erase {name} for good?")
    last_owner: str = "A firm would be left without an owner: make somebody else an owner first. Nothing was changed."
    erased: Sentence = Sentence("Erased. What was done stands under {id} from now on.")
    nowhere: str = "The name was found nowhere else here. Backups made before still hold it."
    left: str = "What the firm wrote itself still holds the name; change it there. Backups made before hold it too."
    stands: Sentence = Sentence("  {firm}, {table}: {rows} rows")
    handed_out: Sentence = Sentence("{to}: {files} files, {rows} rows. It holds what people wrote: guard it.")
    audited: Sentence = Sentence("{at}  {code}: {who}, {address}")
    nobody_signed_in: str = "nobody signed in"
    no_address: str = "no address"
    first_firm: str = "first firm"
    installation: str = "installation"


WORDS = Words()
"""In English."""
