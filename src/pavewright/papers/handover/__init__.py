"""The handover: what a customer keeps of a finished job, on paper and as a folder.

What was measured as laid, what lies buried where, products and batches, keys of covers, units left over, when to use
and clean the paving, the warranty, and where the water goes, for the neighbour. What nobody read or entered is a line
to fill in, never a number and never fine.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.papers.handover._document import document
    from pavewright.papers.handover._folder import folder
else:
    __getattr__ = face(__name__)

__all__ = ["document", "folder"]
