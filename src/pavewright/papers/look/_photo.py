"""Photos for paper: upright, no larger than print shows, wrapped as SVG."""

from __future__ import annotations

import base64
import io
import warnings

from PIL import Image, ImageOps

_DOTS_PER_MM = 7.0
"""About 180 dots an inch: more is not seen on paper. [1/mm]"""
_QUALITY = 80


def photo_svg(content: bytes, wide_mm: float, high_mm: float = 0.0) -> str:
    """Return a photo as SVG of a width; what the camera wrote beside the picture is left out.

    Args:
        content: The bytes of the file.
        wide_mm: Its width. [mm]
        high_mm: Height of the box of that width in which it stands whole, in the middle; zero for no box. [mm]

    Raises:
        OSError: it is no picture.
    """
    upright = _upright(content)
    drawn_wide_mm = wide_mm if not high_mm else min(wide_mm, high_mm * upright.width / upright.height)
    drawn_high_mm = drawn_wide_mm * upright.height / upright.width
    most = round(drawn_wide_mm * _DOTS_PER_MM)
    if upright.width > most:
        upright = upright.resize((max(1, most), max(1, round(upright.height * most / upright.width))))
    out = io.BytesIO()
    upright.save(out, "JPEG", quality=_QUALITY)
    high_mm = high_mm or drawn_high_mm
    left_mm, top_mm = (wide_mm - drawn_wide_mm) / 2.0, (high_mm - drawn_high_mm) / 2.0
    inside = f"data:image/jpeg;base64,{base64.b64encode(out.getvalue()).decode('ascii')}"
    return (
        '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" '
        f'width="{wide_mm:.3f}mm" height="{high_mm:.3f}mm" viewBox="0 0 {wide_mm:.3f} {high_mm:.3f}">'
        f'<image x="{left_mm:.3f}" y="{top_mm:.3f}" width="{drawn_wide_mm:.3f}" height="{drawn_high_mm:.3f}" '
        f'xlink:href="{inside}"/></svg>'
    )


def _upright(content: bytes) -> Image.Image:
    """Return the pixels of a photo, upright.

    Raises:
        OSError: it is no picture.
    """
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            with Image.open(io.BytesIO(content)) as opened:
                return ImageOps.exif_transpose(opened).convert("RGB")
    except (ValueError, SyntaxError, EOFError, Image.DecompressionBombError) as problem:
        raise OSError(str(problem)) from problem
