"""The picture sheets: setting out, laying, sawing and mixes for a crew that reads little.

Numbers, arrows and signs of our own, in black and white; each sheet has a large sign in place of a title. The last one
shows what each sign stands for.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.papers.pictures._document import document
else:
    __getattr__ = face(__name__)

__all__ = ["document"]
