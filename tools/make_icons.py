"""Draw the icons that a phone puts on its home screen, from the same shapes as the icon of the pages.

.venv/bin/python tools/make_icons.py
"""

from __future__ import annotations

from pathlib import Path

from PIL import Image, ImageDraw

STATIC = Path(__file__).parents[1] / "src" / "pavewright" / "web" / "static"
GROUND, SLAB, FAR, LINE = (13, 79, 139), (244, 242, 236), (209, 218, 222), (247, 201, 72)
SHAPES = (
    (SLAB, ((10, 36), (26, 32), (26, 42), (10, 46))),
    (SLAB, ((29, 31.2), (54, 25), (54, 35), (29, 41.3))),
    (FAR, ((10, 49), (36, 42.5), (36, 53), (10, 57))),
    (FAR, ((39, 41.7), (54, 38), (54, 49), (39, 52))),
)
FINE = 4
"""Drawn so many times larger, then made small, so that edges are smooth."""


def icon(side: int, inset: float = 0.0, corner: float = 10.0) -> Image.Image:
    """Return the icon; an inset leaves room for a phone that cuts a circle out of it."""
    scale = side * FINE * (1 - 2 * inset) / 64
    shift = side * FINE * inset
    picture = Image.new("RGBA", (side * FINE, side * FINE), (0, 0, 0, 0))
    draw = ImageDraw.Draw(picture)
    draw.rounded_rectangle((0, 0, side * FINE - 1, side * FINE - 1), corner * side * FINE / 64, fill=GROUND)
    for colour, ring in SHAPES:
        draw.polygon([(x * scale + shift, y * scale + shift) for x, y in ring], fill=colour)
    ends = [(8 * scale + shift, 26 * scale + shift), (56 * scale + shift, 14 * scale + shift)]
    draw.line(ends, fill=LINE, width=round(3 * scale))
    return picture.resize((side, side), Image.Resampling.LANCZOS)


def main() -> None:
    """Write the icons."""
    for name, made in (
        ("icon-192.png", icon(192)),
        ("icon-512.png", icon(512)),
        ("icon-maskable-512.png", icon(512, inset=0.1, corner=0.0)),
    ):
        made.save(STATIC / name, optimize=True)
        print(name)


if __name__ == "__main__":
    main()
