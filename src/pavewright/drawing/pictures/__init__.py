"""Pictures: sheets for a crew that reads little, in numbers, arrows and signs of our own.

Setting out, laying, saw set-ups and mixes, each from the same facts as the sheets in words. No sign is told by colour;
no text but numbers, units, and the numbers of pegs and pieces. The last picture shows what each sign stands for.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.drawing.pictures._cuts import cut_pictures
    from pavewright.drawing.pictures._key import key_picture
    from pavewright.drawing.pictures._laying import laying_pictures
    from pavewright.drawing.pictures._mixes import mix_pictures
    from pavewright.drawing.pictures._setting_out import setting_out_pictures
    from pavewright.drawing.pictures._titles import Title, title_sign
else:
    __getattr__ = face(__name__)

__all__ = [
    "Title",
    "cut_pictures",
    "key_picture",
    "laying_pictures",
    "mix_pictures",
    "setting_out_pictures",
    "title_sign",
]
