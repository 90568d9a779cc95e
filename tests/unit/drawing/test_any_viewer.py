"""A drawing holds nothing that one viewer shows and another does not, and its words fit in the faces that stand in."""

from __future__ import annotations

from pathlib import Path
from xml.etree import ElementTree as ET

import pytest
from fontTools.ttLib import TTFont

from pavewright.drawing import DRAWINGS, stacked_svg, to_svg
from pavewright.drawing._scene import Words
from pavewright.drawing._type import MIN_TYPE_MM, width_of

ROOT = Path(__file__).parents[3]
FONTS = ROOT / "src" / "pavewright" / "papers" / "fonts"
STANDS_IN = Path("/usr/share/fonts/truetype/dejavu")
SVG = "{http://www.w3.org/2000/svg}"
ELEMENTS = {"svg", "title", "desc", "rect", "g", "path", "circle", "text"}
"""Basic shapes and text: SVG 1.1, chapters 8, 9 and 10; no style sheet, no marker, pattern, filter, clip or foreign object."""
ATTRIBUTES = {
    *("width", "height", "viewBox", "role", "data-layer", "x", "y", "rx", "cx", "cy", "r", "d", "transform"),
    *("fill", "fill-rule", "stroke", "stroke-width", "stroke-dasharray", "stroke-linecap", "stroke-linejoin"),
    *("font-family", "font-size", "font-weight", "text-anchor", "text-rendering"),
}


@pytest.fixture(scope="module")
def scenes(made_plan):
    return [scene for each in DRAWINGS for scene in each.scenes(made_plan("l_terrace"))]


def test_only_shapes_and_text_that_every_viewer_knows(scenes):
    for svg in (*map(to_svg, scenes), stacked_svg(scenes)):
        for each in ET.fromstring(svg).iter():
            assert each.tag.removeprefix(SVG) in ELEMENTS
            assert set(each.attrib) <= ATTRIBUTES
            assert not any("var(" in value or "url(" in value or "%" in value for value in each.attrib.values())


def test_the_face_is_followed_by_faces_that_stand_in_for_it(scenes):
    root = ET.fromstring(to_svg(scenes[0]))
    family = [name.strip() for name in root.get("font-family").split(",")]
    assert family[0] == "Inter" and family[-1] == "sans-serif" and "Arial" in family
    # the same advances at every zoom: without it a browser rounds them to dots
    assert root.get("text-rendering") == "geometricPrecision"


def advance(font, text, height_mm):
    glyphs, table = font.getBestCmap(), font["hmtx"]
    return sum(table[glyphs[ord(sign)]][0] for sign in text) / font["head"].unitsPerEm * height_mm


def words_of(scenes):
    return [
        (each.text, max(each.height_mm, MIN_TYPE_MM), each.bold)
        for scene in scenes
        for each in scene.elements
        if isinstance(each, Words)
    ]


@pytest.mark.parametrize(
    ("folder", "names", "room"),
    [
        (FONTS, ("Inter-Regular.otf", "Inter-Bold.otf"), 1.0),
        # a wider face: words that begin at their place end a tenth later
        (STANDS_IN, ("DejaVuSans.ttf", "DejaVuSans-Bold.ttf"), 1.1),
    ],
)
def test_words_are_no_wider_than_the_room_that_is_kept_for_them(scenes, folder, names, room):
    if not (folder / names[0]).exists():
        pytest.skip(f"{names[0]} is not installed here")
    fonts = [TTFont(folder / name) for name in names]
    wide = [
        (text, round(advance(fonts[bold], text, height) / width_of(text, height, bold=bold), 3))
        for text, height, bold in words_of(scenes)
        if all(ord(sign) in fonts[bold].getBestCmap() for sign in text) and text
    ]
    assert len(wide) > 300
    assert [each for each in wide if each[1] > room] == []
