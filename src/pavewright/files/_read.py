"""What is read from a file, and what every reader refuses."""

from __future__ import annotations

from dataclasses import dataclass

from pavewright import units

TO_MM = {"m": units.MM_PER_M, "mm": 1.0, "ft": units.MM_PER_INCH * units.INCHES_PER_FOOT, "in": units.MM_PER_INCH}
"""Millimetres in one of each unit that a file may be in."""
MAX_POINTS = 20_000
_MAX_MB = 20
_MAX_BYTES = _MAX_MB << 20
MAX_MM = 1e8
"""No site lies further from the origin of its grid. [mm]"""


class FileRefusedError(ValueError):
    """A file that cannot be taken over; says where and why."""


@dataclass(frozen=True, slots=True)
class ReadPoint:
    """A point as it was read.

    Attributes:
        name: Its name; its place in the file where it has none.
        x_mm: East. [mm]
        y_mm: North. [mm]
        level_mm: Level; None where none is given. [mm]
        note: What stands beside it.
    """

    name: str
    x_mm: float
    y_mm: float
    level_mm: float | None
    note: str


@dataclass(frozen=True, slots=True)
class ReadLine:
    """A line through points of the file.

    Attributes:
        layer: Layer or kind under which the file keeps it.
        points: Names of its points in turn.
        closed: Whether it comes back to its start.
    """

    layer: str
    points: tuple[str, ...]
    closed: bool


@dataclass(frozen=True, slots=True)
class ReadDrawing:
    """Points and lines of a file.

    Attributes:
        points: Every point once.
        lines: Lines through them.
        caveats: What whoever takes them over has to know, in sentences.
    """

    points: tuple[ReadPoint, ...]
    lines: tuple[ReadLine, ...]
    caveats: tuple[str, ...]


def refuse_large(content: bytes) -> None:
    """Refuse a file that is larger than any drawing of a garden.

    Raises:
        FileRefusedError: it is.
    """
    if len(content) > _MAX_BYTES:
        message = f"The file is larger than {_MAX_MB} MB: a survey of a garden is not. Take out what is off the site."
        raise FileRefusedError(message)


def refuse_far(*coordinates_mm: float) -> None:
    """Refuse a place that lies too far from the origin.

    Raises:
        ValueError: it does, or is no number.
    """
    if not all(abs(each) <= MAX_MM for each in coordinates_mm):
        message = "it lies more than 100 km off: take an origin near the site"
        raise ValueError(message)


class Gathered:
    """Points and lines as a reader meets them: places that are met again are one point."""

    def __init__(self) -> None:
        """Start with nothing."""
        self._points: dict[tuple[float, float, float | None], ReadPoint] = {}
        self._names: set[str] = set()
        self._numbers: dict[str, int] = {}
        self.lines: list[ReadLine] = []

    @property
    def points(self) -> tuple[ReadPoint, ...]:
        """The points in the order in which they were met."""
        return tuple(self._points.values())

    @property
    def count(self) -> int:
        """How many points were met."""
        return len(self._points)

    def point(self, name: str, x_mm: float, y_mm: float, level_mm: float | None, note: str = "") -> str:
        """Take a point and return its name; a name that is taken gets a number.

        Raises:
            FileRefusedError: it lies too far off, or there are too many.
        """
        key = (x_mm, y_mm, level_mm)
        if key in self._points:
            return self._points[key].name
        try:
            refuse_far(x_mm, y_mm, level_mm or 0.0)
        except ValueError as problem:
            message = f"Point {name} cannot be taken over: {problem}."
            raise FileRefusedError(message) from None
        if len(self._points) >= MAX_POINTS:
            message = (
                f"The file holds more than {MAX_POINTS} points: take fewer layers, or take out those off the site."
            )
            raise FileRefusedError(message)
        free, number = name, self._numbers.get(name, 1)
        while free in self._names:
            number += 1
            free = f"{name} {number}"
        self._names.add(free)
        self._numbers[name] = number
        self._points[key] = ReadPoint(free, x_mm, y_mm, level_mm, note)
        return free

    def drawing(self, *caveats: str) -> ReadDrawing:
        """Return what was met.

        Raises:
            FileRefusedError: nothing was.
        """
        if not self._points:
            message = "Nothing in the file can be taken over as a point or a line: look whether it is the right one."
            raise FileRefusedError(message)
        return ReadDrawing(self.points, tuple(self.lines), caveats)
