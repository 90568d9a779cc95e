"""The logo of the firm: a picture made small, of its pixels alone."""

from __future__ import annotations

import base64
import io
import warnings

from PIL import Image, ImageOps

from pavewright.desk._photos import PhotoRefusedError

LOGO_PIXELS_MAX = 40_000_000
"""A picture with more than this is no logo. [px]"""
_SIDES = (800, 500, 300)
"""Longest sides that are tried, until the picture is small enough. [px]"""
_QUALITY = 88
_BYTES_MAX = 500_000
_REFUSED = "That is not a picture that can be read: save the logo as PNG or JPEG."


def clean_logo(sent: bytes) -> dict[str, str]:
    """Return a logo as the book keeps it: PNG where parts of it are clear, else JPEG, with nothing beside its pixels.

    Raises:
        PhotoRefusedError: it is no picture, or a hostile one.
    """
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            with Image.open(io.BytesIO(sent), formats=("PNG", "JPEG")) as opened:
                if opened.width * opened.height > LOGO_PIXELS_MAX:
                    raise PhotoRefusedError("That picture has more pixels than a logo needs: send a smaller one.")
                opened.load()
                kind = "jpeg" if opened.format == "JPEG" else "png"
                upright = ImageOps.exif_transpose(opened)
                return _small_enough(upright, kind)
    except (OSError, ValueError, SyntaxError, EOFError, Image.DecompressionBombError, MemoryError) as problem:
        raise PhotoRefusedError(_REFUSED) from problem


def _small_enough(picture: Image.Image, kind: str) -> dict[str, str]:
    for side in _SIDES:
        content = _bare(picture, kind, side)
        if len(content) <= _BYTES_MAX:
            return {"kind": kind, "base64": base64.b64encode(content).decode()}
    return {"kind": "jpeg", "base64": base64.b64encode(_bare(picture, "jpeg", _SIDES[-1])).decode()}


def _bare(picture: Image.Image, kind: str, side: int) -> bytes:
    """Return the pixels of a picture, no larger than a side, on which nothing else hangs."""
    small = picture.convert("RGBA")
    small.thumbnail((side, side), Image.Resampling.LANCZOS)
    out = io.BytesIO()
    if kind == "png":
        bare = Image.new("RGBA", small.size)
        bare.paste(small)
        bare.save(out, "PNG", optimize=True)
    else:
        paper = Image.new("RGB", small.size, "white")
        paper.paste(small, mask=small.getchannel("A"))
        paper.save(out, "JPEG", quality=_QUALITY, optimize=True)
    return out.getvalue()
