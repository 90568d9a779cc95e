"""The picture sheets as one document without words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.drawing import to_svg
from pavewright.drawing.pictures import (
    Title,
    cut_pictures,
    key_picture,
    laying_pictures,
    mix_pictures,
    setting_out_pictures,
    title_sign,
)
from pavewright.method import method_figures
from pavewright.papers.look import Document, SheetOfPaper, drawing
from pavewright.quantities import mix_cards, mix_gear

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from pavewright.drawing import Scene
    from pavewright.papers._input import PaperInput


def document(given: PaperInput) -> Document | None:
    """Return the picture sheets of a plan; None where nothing is laid."""
    plan = given.plan
    if not any(laid.pieces for laid in plan.laying.areas):
        return None
    cards = mix_cards(plan.quantities, plan.job.mixes, given.rules)
    bucket_l = mix_gear(plan.quantities, given.rules).bucket.value
    sheets = (
        *_sheets(Title.SETTING_OUT, setting_out_pictures(plan)),
        *_sheets(Title.LAYING, laying_pictures(plan, method_figures(given.rules))),
        *_sheets(Title.CUTS, cut_pictures(plan)),
        *_sheets(Title.MIXES, mix_pictures(cards, bucket_l)),
        *_sheets(Title.KEY, key_picture()),
    )
    return Document(title_sign(Title.SETTING_OUT).about, sheets, wordless=True)


def _sheets(title: Title, scenes: Iterable[Scene]) -> Iterator[SheetOfPaper]:
    """Give sheets under one sign, with as many pictures on each as a page holds."""
    sign = title_sign(title)
    sheet, low_mm = SheetOfPaper(sign.about, measured=False, sign=to_svg(sign)), 0.0
    for scene in scenes:
        high_mm = scene.paper_mm[1] + _GAP_MM
        if sheet.blocks and low_mm + high_mm > _ROOM_MM:
            yield sheet
            sheet, low_mm = SheetOfPaper(sign.about, measured=False, sign=to_svg(sign)), 0.0
        sheet.add(drawing(scene))
        low_mm += high_mm
    if sheet.blocks:
        yield sheet


_ROOM_MM, _GAP_MM = 236.0, 4.0
"""Height of a page below its sign, and room between two pictures on it. [mm]"""
