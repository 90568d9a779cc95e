"""What a sheet of pictures is about, as one large sign beside the number of the job."""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING

from pavewright.drawing._scene import Element, Scene
from pavewright.drawing.pictures import _signs as signs
from pavewright.drawing.pictures._board import Pen
from pavewright.drawing.pictures._words import WORDS

if TYPE_CHECKING:
    from collections.abc import Callable


class Title(StrEnum):
    """What a sheet of pictures is about."""

    SETTING_OUT = "setting_out"
    LAYING = "laying"
    CUTS = "cuts"
    MIXES = "mixes"
    KEY = "key"


def title_sign(title: Title) -> Scene:
    """Return the sign of a sheet."""
    elements: list[Element] = []
    draw, about = _SIGNS[title]
    draw(Pen(elements, size=1.4))
    return Scene(f"sign-{title.value}", about, tuple(elements), (0.0, 0.0, 14.0, 14.0), 1, about)


_SIGNS: dict[Title, tuple[Callable[[Pen], None], str]] = {
    Title.SETTING_OUT: (signs.string, WORDS.setting_out),
    Title.LAYING: (signs.slab, WORDS.laying),
    Title.CUTS: (signs.blade, WORDS.cuts),
    Title.MIXES: (signs.mixer, WORDS.mixes),
    Title.KEY: (signs.book, WORDS.key),
}
