"""One drawing, three programs that know nothing of each other: what one shows, the others show at the same place.

Chromium, rsvg-convert (librsvg) and typst (resvg), all with the shipped face. Every dark dot of one has a dark dot of the
other within a quarter of a millimetre of paper, but for two in a hundred: long lines of words run on a little in Chromium.
"""

from __future__ import annotations

import base64
import io
import os
import shutil
import subprocess
from pathlib import Path

import pytest
import typst
from PIL import Image, ImageChops, ImageFilter

from pavewright.drawing import (
    dig_plan,
    drain_sections,
    laying_plan,
    levels_plan,
    movement_details,
    setting_out_plan,
    to_svg,
    wall_sections,
)

pytestmark = pytest.mark.browser

ROOT = Path(__file__).parents[2]
FONTS = ROOT / "src" / "pavewright" / "papers" / "fonts"
DOTS = 8
"""Dots to a millimetre of paper."""
NEAR = 5
"""A dot of the other within a square of so many: two dots each way."""
SHARE = 0.02
INK, TRACE = 140, 200
SCENES = {
    "levels": levels_plan,
    "laying": laying_plan,
    "dig": dig_plan,
    "setting-out": setting_out_plan,
    "section": lambda plan: wall_sections(plan)[0],
    "movement": lambda plan: movement_details(plan)[0],
    "drains": lambda plan: drain_sections(plan)[1],
}


@pytest.fixture(scope="module", params=sorted(SCENES))
def scene(made_plan, request):
    return SCENES[request.param](made_plan("l_terrace"))


@pytest.fixture(scope="module")
def by_typst(scene, tmp_path_factory):
    wide, high = scene.paper_mm
    page = f'#set page(width: {wide}mm, height: {high}mm, margin: 0mm)\n#image("a.svg", width: {wide}mm)'
    picture = typst.compile(
        {"main.typ": page.encode(), "a.svg": to_svg(scene).encode()},
        root=str(tmp_path_factory.mktemp("empty")),
        format="png",
        ppi=DOTS * 25.4,
        font_paths=[str(FONTS)],
        ignore_system_fonts=True,
    )
    return Image.open(io.BytesIO(picture)).convert("L")


def by_rsvg(scene, folder):
    program = shutil.which("rsvg-convert")
    if program is None:
        pytest.skip("no rsvg-convert: install librsvg2-bin to compare with it")
    conf = folder / "fonts.conf"
    conf.write_text(f"<fontconfig><dir>{FONTS}</dir><cachedir>{folder}</cachedir></fontconfig>", "utf-8")
    done = subprocess.run(
        [program, "-w", str(round(scene.paper_mm[0] * DOTS))],
        input=to_svg(scene).encode(),
        capture_output=True,
        check=True,
        env={**os.environ, "FONTCONFIG_FILE": str(conf)},
    )
    return Image.open(io.BytesIO(done.stdout)).convert("L")


def by_chromium(browser, scene):
    wide, high = (round(each * DOTS) for each in scene.paper_mm)
    faces = "".join(
        f"@font-face{{font-family:Inter;font-weight:{weight};src:url(data:font/otf;base64,"
        f"{base64.b64encode((FONTS / f'Inter-{name}.otf').read_bytes()).decode()})}}"
        for name, weight in (("Regular", 400), ("Bold", 700))
    )
    svg = to_svg(scene).replace("<svg ", f'<svg style="width:{wide}px;height:{high}px;display:block" ', 1)
    page = browser.new_page(viewport={"width": wide, "height": high})
    page.set_content(f"<!doctype html><style>{faces}</style><body style='margin:0'>{svg}</body>")
    page.evaluate("document.fonts.ready.then(() => true)")
    picture = Image.open(io.BytesIO(page.screenshot())).convert("L")
    page.close()
    return picture


def apart(one, other):
    """Share of the dark dots of one picture that have none of the other near them."""
    size = min(one.width, other.width), min(one.height, other.height)
    assert abs(one.width - other.width) <= 1 and abs(one.height - other.height) <= 1
    one, other = (each.crop((0, 0, *size)) for each in (one, other))
    ink = one.point(lambda shade: 255 if shade < INK else 0)
    near = other.point(lambda shade: 0 if shade < TRACE else 255).filter(ImageFilter.MinFilter(NEAR))
    alone = ImageChops.multiply(ink, near).histogram()[255]
    return alone / ink.histogram()[255]


def test_librsvg_shows_what_typst_shows(scene, by_typst, tmp_path):
    other = by_rsvg(scene, tmp_path)
    assert max(apart(by_typst, other), apart(other, by_typst)) <= SHARE


def test_chromium_shows_what_typst_shows(scene, by_typst, chromium):
    other = by_chromium(chromium, scene)
    assert max(apart(by_typst, other), apart(other, by_typst)) <= SHARE


def test_a_word_that_one_leaves_out_is_seen(by_typst):
    wide, high = by_typst.size
    spoilt = by_typst.copy()
    spoilt.paste(255, (0, 0, wide // 2, high // 2))
    assert apart(by_typst, spoilt) > SHARE
