"""Photos for paper: upright, no larger than print shows, wrapped as SVG."""

from __future__ import annotations

import base64
import io

from PIL import Image, ImageOps

_DOTS_PER_MM = 7.0
"""About 180 dots an inch: more is not seen on paper. [1/mm]"""
_QUALITY = 80


def photo_svg(content: bytes, wide_mm: float) -> str:
    """Return a photo as SVG of a width; what the camera wrote beside the picture is left out.

    Args:
        content: The bytes of the file.
        wide_mm: Its width. [mm]

    Raises:
        OSError: it is no picture.
    """
    with Image.open(io.BytesIO(content)) as opened:
        upright = ImageOps.exif_transpose(opened).convert("RGB")
    most = round(wide_mm * _DOTS_PER_MM)
    if upright.width > most:
        upright = upright.resize((most, max(1, round(upright.height * most / upright.width))))
    out = io.BytesIO()
    upright.save(out, "JPEG", quality=_QUALITY)
    high_mm = wide_mm * upright.height / upright.width
    inside = f"data:image/jpeg;base64,{base64.b64encode(out.getvalue()).decode('ascii')}"
    return (
        '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" '
        f'width="{wide_mm:g}mm" height="{high_mm:.3f}mm" viewBox="0 0 {wide_mm:g} {high_mm:.3f}">'
        f'<image width="{wide_mm:g}" height="{high_mm:.3f}" xlink:href="{inside}"/></svg>'
    )
