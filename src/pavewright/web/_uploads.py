"""What may be sent: one table, by kind, of how much, of which content, and of how many pixels.

Content is known by its first bytes, never by a name or by what the sender calls it.
"""

from __future__ import annotations

import enum
import re
from dataclasses import dataclass
from functools import cache

from pavewright.desk import LOGO_PIXELS_MAX, PHOTO_PIXELS_MAX
from pavewright.record import TOKEN_BYTES_MAX
from pavewright.web._upload_words import WORDS


class Content(enum.Enum):
    """What bytes are, by how they begin."""

    JPEG = "JPEG"
    PNG = "PNG"
    WEBP = "WebP"
    ZIP = "XLSX"
    OLD_BOOK = "an old workbook"
    LAS = "LAS or LAZ"
    PLY = "PLY"
    BINARY_DXF = "binary DXF"
    SQLITE = "SQLite"
    TEXT = "text"
    OTHER = "anything else"


_BEGINS = (
    (Content.JPEG, 0, b"\xff\xd8\xff"),
    (Content.PNG, 0, b"\x89PNG\r\n\x1a\n"),
    (Content.WEBP, 8, b"WEBP"),
    (Content.ZIP, 0, b"PK\x03\x04"),
    (Content.OLD_BOOK, 0, b"\xd0\xcf\x11\xe0"),
    (Content.LAS, 0, b"LASF"),
    (Content.SQLITE, 0, b"SQLite format 3\x00"),
)
_PLY = re.compile(rb"ply[ \t]*[\r\n]")
"""A table may begin with the same three letters."""
_BINARY_DXF = re.compile(rb"[A-Za-z]+ Binary DXF")
_WIDE = (b"\xff\xfe", b"\xfe\xff")
"""How text begins whose characters are two bytes each."""
LOOKED_AT = 4_096
"""So many bytes decide. [bytes]"""
_MILLION = 1_000_000
"""Bytes of a megabyte, pixels of a megapixel. [-]"""


def content_of(beginning: bytes) -> Content:
    r"""Return what bytes are, by the first of them.

    >>> content_of(b"\xff\xd8\xff\xe0"), content_of(b"width,length"), content_of(b"\x00\x01")
    (<Content.JPEG: 'JPEG'>, <Content.TEXT: 'text'>, <Content.OTHER: 'anything else'>)
    """
    head = beginning[:LOOKED_AT]
    for content, at, sign in _BEGINS:
        if head[at : at + len(sign)] == sign:
            return content
    for content, pattern in ((Content.PLY, _PLY), (Content.BINARY_DXF, _BINARY_DXF)):
        if pattern.match(head):
            return content
    return Content.TEXT if head.startswith(_WIDE) or b"\x00" not in head else Content.OTHER


class Kind(enum.Enum):
    """What is sent."""

    CHANGE = "change"
    FORM = "form"
    PHOTO = "photo"
    LOGO = "logo"
    PRICES = "prices"
    POINTS = "points"
    WEATHER = "weather"
    STAMP = "stamp"
    BACKUP = "backup"


@dataclass(frozen=True, slots=True)
class Limit:
    """How much of a kind is taken, and what.

    Attributes:
        max_bytes: Most bytes. [bytes]
        takes: Contents that are taken; empty where all of it is read strictly as JSON or as a form.
        max_pixels: Most pixels of a picture; None where it is none. [px]
        explained: Contents that are not taken either, which the reader refuses in a sentence that says what to do.
    """

    max_bytes: int
    takes: tuple[Content, ...] = ()
    max_pixels: int | None = None
    explained: tuple[Content, ...] = ()

    @property
    def is_file(self) -> bool:
        """Whether it is a file of somebody, which is looked at and scanned before it is taken."""
        return bool(self.takes)


LIMITS = {
    Kind.CHANGE: Limit(6_000_000),
    Kind.FORM: Limit(200_000),
    Kind.PHOTO: Limit(15_000_000, (Content.JPEG, Content.PNG, Content.WEBP), PHOTO_PIXELS_MAX),
    Kind.LOGO: Limit(6_000_000, (Content.PNG, Content.JPEG), LOGO_PIXELS_MAX),
    Kind.PRICES: Limit(20_000_000, (Content.TEXT, Content.ZIP), explained=(Content.OLD_BOOK,)),
    Kind.POINTS: Limit(
        60_000_000,
        (Content.TEXT, Content.LAS, Content.PLY, Content.ZIP),
        explained=(Content.BINARY_DXF, Content.OLD_BOOK),
    ),
    Kind.WEATHER: Limit(20_000_000, (Content.TEXT,)),
    Kind.STAMP: Limit(TOKEN_BYTES_MAX, (Content.OTHER, Content.TEXT)),
    Kind.BACKUP: Limit(4_000_000_000, (Content.SQLITE,)),
}
"""Every kind with its limit."""
_KINDS = {
    "/api/jobs/{}/photos": Kind.PHOTO,
    "/api/firm/logo": Kind.LOGO,
    "/api/firm/prices": Kind.PRICES,
    "/api/firm/prices/take": Kind.PRICES,
    "/api/files": Kind.POINTS,
    "/api/weather": Kind.WEATHER,
    "/api/jobs/{}/record/tokens": Kind.STAMP,
    "/api/restore": Kind.BACKUP,
    "/quotation/{}": Kind.FORM,
    "/quotation/{}/questions": Kind.FORM,
    "/sign-in": Kind.FORM,
    "/join/{}": Kind.FORM,
    "/new-password/{}": Kind.FORM,
    "/pair/{}": Kind.FORM,
}
"""Addresses at which something else than a change is sent; ``{}`` stands for a name."""


def addresses() -> dict[str, Kind]:
    """Return the addresses at which something else than a change is sent; ``{}`` stands for a name."""
    return dict(_KINDS)


@cache
def _patterns() -> tuple[tuple[re.Pattern[str], Kind], ...]:
    found = ((re.escape(path).replace(re.escape("{}"), "[^/]+"), kind) for path, kind in _KINDS.items())
    return tuple((re.compile(pattern), kind) for pattern, kind in found)


def kind_at(path: str) -> Kind:
    """Return what is sent to an address.

    >>> kind_at("/api/jobs/5f/photos"), kind_at("/api/jobs/5f/operations")
    (<Kind.PHOTO: 'photo'>, <Kind.CHANGE: 'change'>)
    """
    return next((kind for pattern, kind in _patterns() if pattern.fullmatch(path)), Kind.CHANGE)


def refusal_of(kind: Kind, beginning: bytes) -> str | None:
    """Return why a file is not taken for what it begins with, None where it is.

    Args:
        kind: What is sent.
        beginning: Its first bytes.
    """
    limit = LIMITS[kind]
    if not limit.is_file or not beginning or content_of(beginning) in {*limit.takes, *limit.explained}:
        return None
    return WORDS.content(what=named(kind), takes=" or ".join(each.value for each in limit.takes))


def too_much_of(kind: Kind) -> str:
    """Return the sentence that says that more is sent than is taken of a kind."""
    return WORDS.too_much(what=named(kind), most=shown(LIMITS[kind].max_bytes))


def shown(size_bytes: int) -> str:
    """Return a size as it is read.

    >>> shown(15_000_000), shown(64_000)
    ('15 MB', '64 kB')
    """
    thousand = 1_000
    return f"{size_bytes // _MILLION:,} MB" if size_bytes >= _MILLION else f"{size_bytes // thousand} kB"


def named(kind: Kind) -> str:
    """Return how a kind is called."""
    return str(getattr(WORDS, kind.value))


def as_table() -> str:
    """Return the table of limits as a page shows it."""
    rows = [WORDS.heads, "|---|---|---|---|"]
    for kind, limit in LIMITS.items():
        takes = ", ".join(each.value for each in limit.takes) or WORDS.strictly
        if Content.OTHER in limit.takes:
            takes = WORDS.read_whole
        pixels = WORDS.no_picture if limit.max_pixels is None else f"{limit.max_pixels // _MILLION} million"
        rows.append(f"| {named(kind)} | {shown(limit.max_bytes)} | {takes} | {pixels} |")
    return "\n".join(rows) + "\n"
