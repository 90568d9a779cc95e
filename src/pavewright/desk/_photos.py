"""Photos: made small, turned upright, and free of everything that a camera writes beside the picture."""

from __future__ import annotations

import io
import warnings

from PIL import Image, ImageOps

_PIXELS_MAX = 60_000_000
"""A picture with more than this is no photo of a camera or a phone. [px]"""
_SIDE_MAX = 1600
"""Longest side that is kept. [px]"""
_QUALITY = 82
_KINDS = ("JPEG", "PNG", "WEBP")


class PhotoRefusedError(Exception):
    """What was sent is no photo that can be kept; the message says what to do."""


def clean_photo(sent: bytes) -> bytes:
    """Return a photo as a JPEG of its pixels alone: upright, no larger than is looked at, without place or camera.

    Raises:
        PhotoRefusedError: it is no picture, or a hostile one.
    """
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            with Image.open(io.BytesIO(sent), formats=_KINDS) as opened:
                if opened.width * opened.height > _PIXELS_MAX:
                    raise PhotoRefusedError("That picture has more pixels than a camera takes: send a smaller one.")
                opened.draft("RGB", (_SIDE_MAX * 2, _SIDE_MAX * 2))
                opened.load()
                upright = ImageOps.exif_transpose(opened)
                return _pixels_alone(upright)
    except (OSError, ValueError, SyntaxError, EOFError, Image.DecompressionBombError, MemoryError) as problem:
        message = "That is not a photo that can be read: take it again, or save it as JPEG, PNG or WebP."
        raise PhotoRefusedError(message) from problem


def _pixels_alone(picture: Image.Image) -> bytes:
    """Return the pixels of a picture as a JPEG on which nothing else hangs."""
    picture.thumbnail((_SIDE_MAX, _SIDE_MAX), Image.Resampling.LANCZOS)
    if picture.mode in {"RGBA", "LA", "PA"} or "transparency" in picture.info:
        picture = picture.convert("RGBA")
        paper = Image.new("RGB", picture.size, "white")
        paper.paste(picture, mask=picture.getchannel("A"))
        picture = paper
    bare = Image.new("RGB", picture.size)
    bare.paste(picture.convert("RGB"))
    out = io.BytesIO()
    bare.save(out, "JPEG", quality=_QUALITY, optimize=True)
    return out.getvalue()
