"""Handed out: all that is kept of a firm, or of a person, in one zip file that any program opens, without a secret.

It is no backup: nothing is brought back from it. It is made from one look at the database while people work.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.store.handed_out._firm_out import hand_out_firm
    from pavewright.store.handed_out._person_out import hand_out_person
    from pavewright.store.handed_out._zip import HandedOut
else:
    __getattr__ = face(__name__)

__all__ = ["HandedOut", "hand_out_firm", "hand_out_person"]
