"""Photos: made small, turned upright, and free of everything that a camera writes beside the picture."""

from __future__ import annotations

import io
import warnings
from typing import TYPE_CHECKING

from PIL import Image, ImageOps

from pavewright.papers import PHOTOS_MAX, PaperPhoto

if TYPE_CHECKING:
    from pathlib import Path

PHOTO_PIXELS_MAX = 60_000_000
"""A picture with more than this is no photo of a camera or a phone. [px]"""
_SIDE_MAX = 1600
"""Longest side that is kept. [px]"""
_QUALITY = 82
_KINDS = ("JPEG", "PNG", "WEBP")
_ENDINGS = frozenset({".jpg", ".jpeg", ".png", ".webp"})


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
                if opened.width * opened.height > PHOTO_PIXELS_MAX:
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


def photos_in(folder: Path) -> tuple[PaperPhoto, ...]:
    """Return the photos of a folder by name, each with its name for a caption; one that cannot be read is empty.

    Raises:
        OSError: the folder or a file cannot be read.
    """
    found = sorted(path for path in folder.iterdir() if path.suffix.lower() in _ENDINGS and path.is_file())
    taken = set(found[-PHOTOS_MAX:])
    return tuple(PaperPhoto(_clean_or_empty(path) if path in taken else None, path.stem) for path in found)


def _clean_or_empty(path: Path) -> bytes:
    try:
        return clean_photo(path.read_bytes())
    except PhotoRefusedError:
        return b""
