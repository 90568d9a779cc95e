"""Order lists: one for each supplier, or for each kind of supplier where none is named, with the lift plan.

Each list says where it goes, when, what may get there, where to set down and what one drop weighs. It shows no price
unless the job asks for it. What nobody knows is a question to ask, never a number.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.papers.orders._document import document
    from pavewright.papers.orders._lifts import lift_blocks
else:
    __getattr__ = face(__name__)

__all__ = ["document", "lift_blocks"]
