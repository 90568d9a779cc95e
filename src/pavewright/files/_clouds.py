"""Point clouds of a scanner: LAS, LAZ and PLY in chunks, down to the median level of every cell of a fine grid."""

from __future__ import annotations

import io
import re
import struct
from dataclasses import dataclass
from typing import TYPE_CHECKING, Protocol

import numpy as np

from pavewright import units
from pavewright.files._read import FileRefusedError

if TYPE_CHECKING:
    from collections.abc import Iterator
    from typing import BinaryIO

_CHUNK = 1_000_000
MAX_POINTS = 50_000_000
"""More points than this are not taken."""
_MAX_CELLS = 40_000_000
_MIN_CELL_MM, _MAX_CELL_MM = 5.0, 500.0
_GROUND = 2
"""Class of the ground in LAS."""
_FINEST_M, _FARTHEST_M = 1e-6, 1e8
"""No cloud is written in finer steps, or further from the origin of its grid. [m]"""
_STEP_MM = 0.1
"""PLY has floats: they are taken over in steps of this. [mm]"""


@dataclass(frozen=True, slots=True)
class CloudSurface:
    """Median levels of a cloud.

    Attributes:
        spots: East, north, level of the middle of every cell that holds enough points, shape (n, 3), float64. [mm]
        counts: Points read, and points that were taken.
        cell_mm: Side of a cell. [mm]
    """

    spots: np.ndarray
    counts: tuple[int, int]
    cell_mm: float


@dataclass(frozen=True, slots=True)
class Steps:
    """A chunk of a cloud in whole steps: x, y int64 and z int32."""

    x: np.ndarray
    y: np.ndarray
    z: np.ndarray


class Cloud(Protocol):
    """A cloud that is read chunk by chunk, in steps of ``step_mm`` from ``origin_mm``."""

    step_mm: float
    origin_mm: tuple[float, float, float]
    count: int

    def chunks(self) -> Iterator[Steps]:
        """Give the points, chunk by chunk."""


def read_las(stream: BinaryIO, cell_mm: float, *, ground_only: bool, least: int = 1) -> CloudSurface:
    """Return the median levels of a LAS or LAZ cloud in metres.

    Args:
        stream: The file, which can be sought.
        cell_mm: Side of a cell, 5 to 500. [mm]
        ground_only: Whether only points of the class ground are taken.
        least: Points that a cell must hold.

    Raises:
        FileRefusedError: no such file, a damaged one, too much of it, or no point that is taken.
    """
    return surface_of(_Las(stream, ground_only=ground_only), cell_mm, least)


def read_ply(stream: BinaryIO, cell_mm: float, unit: str, least: int = 1) -> CloudSurface:
    """Return the median levels of a PLY cloud.

    Args:
        stream: The file.
        cell_mm: Side of a cell, 5 to 500. [mm]
        unit: ``m`` or ``mm``: the file does not state it.
        least: Points that a cell must hold.

    Raises:
        FileRefusedError: no such file, a damaged one, too much of it, or no unit.
    """
    if unit not in {"m", "mm"}:
        message = "A PLY file does not state its unit: say m or mm."
        raise FileRefusedError(message)
    return surface_of(_Ply(stream, units.MM_PER_M if unit == "m" else 1.0), cell_mm, least)


class _Las:
    """A LAS or LAZ file: whole numbers times a scale, in metres."""

    def __init__(self, stream: BinaryIO, *, ground_only: bool) -> None:
        import laspy  # noqa: PLC0415 - slow to load

        self._stream, self._ground_only = stream, ground_only
        _refuse_false_head(stream)
        try:
            with laspy.open(stream, closefd=False) as reader:
                header = reader.header
                self.count = int(header.point_count)
                scales, offsets = np.array(header.scales), np.array(header.offsets)
                packed = bool(header.are_points_compressed)
                whole = int(header.offset_to_point_data) + self.count * int(header.point_format.size)
        except Exception as problem:
            raise FileRefusedError(_UNREADABLE) from problem
        sound = np.isfinite(scales).all() and np.isfinite(offsets).all()
        if not sound or scales.min() < _FINEST_M or scales.max() > 1.0 or np.abs(offsets).max() > _FARTHEST_M:
            raise FileRefusedError(_UNREADABLE)
        length = stream.seek(0, io.SEEK_END)
        if not packed and whole > length:
            there = max(0, length - int(header.offset_to_point_data)) // int(header.point_format.size)
            message = (
                f"The cloud says that it holds {self.count} points and the file ends after {there}: its "
                f"end is missing. Send it again whole."
            )
            raise FileRefusedError(message)
        if scales[0] != scales[1]:
            message = "The cloud has two scales east and north: save it again with one."
            raise FileRefusedError(message)
        self.step_mm = units.m_to_mm(float(scales[0]))
        self._z_steps = float(scales[2] / scales[0])
        east, north, up = (units.m_to_mm(float(each)) for each in offsets)
        self.origin_mm = (east, north, up)

    def chunks(self) -> Iterator[Steps]:
        import laspy  # noqa: PLC0415 - slow to load

        self._stream.seek(0)
        try:
            with laspy.open(self._stream, closefd=False) as reader:
                for points in reader.chunk_iterator(_CHUNK):
                    kept = points
                    if self._ground_only:
                        kept = points[np.asarray(points.classification) == _GROUND]
                    z = np.asarray(kept.Z)
                    yield Steps(
                        np.asarray(kept.X, np.int64),
                        np.asarray(kept.Y, np.int64),
                        z if self._z_steps == 1.0 else np.rint(z * self._z_steps).astype(np.int32),
                    )
        except Exception as problem:
            raise FileRefusedError(_UNREADABLE) from problem


_HEAD = struct.Struct("<4s20sBB68sHII")
"""Head of LAS: signature, …, version, …, its own length, where the points begin, records before them."""
_RECORD_BYTES, _LONG_RECORD_BYTES = 54, 60
"""A record before the points, or after them, is at least so long."""
_LATE_RECORDS = struct.Struct("<QI")
_LATE_RECORDS_AT, _SINCE = 235, (1, 4)


def _refuse_false_head(stream: BinaryIO) -> None:
    """Refuse a cloud whose head counts more records than the file can hold, before anybody walks through them.

    Raises:
        FileRefusedError: it does.
    """
    length = stream.seek(0, io.SEEK_END)
    stream.seek(0)
    head = stream.read(_LATE_RECORDS_AT + _LATE_RECORDS.size)
    stream.seek(0)
    if len(head) < _HEAD.size:
        raise FileRefusedError(_UNREADABLE)
    signature, _, major, minor, _, own, points_at, records = _HEAD.unpack_from(head)
    sound = signature == b"LASF" and own <= points_at <= length and records * _RECORD_BYTES <= points_at - own
    if (major, minor) >= _SINCE and len(head) == _LATE_RECORDS_AT + _LATE_RECORDS.size:
        late_at, late = _LATE_RECORDS.unpack_from(head, _LATE_RECORDS_AT)
        sound = sound and (late == 0 or late_at + late * _LONG_RECORD_BYTES <= length)
    if not sound:
        raise FileRefusedError(_UNREADABLE)


class _Ply:
    """A PLY file: vertices of a cloud or a mesh."""

    def __init__(self, stream: BinaryIO, to_mm: float) -> None:
        from trimesh.exchange.ply import load_ply  # noqa: PLC0415 - only here

        try:
            stated = _stated_vertices(stream)
            read = load_ply(stream)["vertices"]
            places = np.asarray(read, np.float64).reshape(-1, 3) * to_mm
        except Exception as problem:
            raise FileRefusedError(_UNREADABLE) from problem
        if len(places) != stated:
            raise FileRefusedError(_UNREADABLE)
        if not len(places) or not np.isfinite(places).all():
            raise FileRefusedError(_UNREADABLE)
        self.count, self.step_mm = len(places), _STEP_MM
        low = places.min(axis=0)
        self.origin_mm = (float(low[0]), float(low[1]), float(low[2]))
        steps = np.rint((places - low) / self.step_mm)
        if steps.max() > np.iinfo(np.int32).max:
            message = "The cloud reaches over more than 200 km: look at its unit."
            raise FileRefusedError(message)
        self._steps = steps.astype(np.int32)

    def chunks(self) -> Iterator[Steps]:
        for first in range(0, len(self._steps), _CHUNK):
            part = self._steps[first : first + _CHUNK]
            yield Steps(part[:, 0].astype(np.int64), part[:, 1].astype(np.int64), np.ascontiguousarray(part[:, 2]))


def _stated_vertices(stream: BinaryIO) -> int:
    """Return how many vertices the head of a PLY file states, and go back to its start.

    Raises:
        ValueError: it states none, or more than are taken; such a file is not read.
    """
    found = re.search(rb"\nelement[ \t]+vertex[ \t]+([0-9]{1,12})\s", stream.read(_HEAD_BYTES))
    stream.seek(0)
    if found is None or not 0 < int(found[1]) <= MAX_POINTS:
        message = "no vertices, or too many"
        raise ValueError(message)
    return int(found[1])


_HEAD_BYTES = 65_536
"""The head of a PLY file ends within this. [bytes]"""


_UNREADABLE = "The file cannot be read as a point cloud: it is not such a file, or not whole. Save it again."


def surface_of(cloud: Cloud, cell_mm: float, least: int) -> CloudSurface:
    """Return the median levels of a cloud."""
    from pavewright.files._bins import count_into, medians_of, sort_into  # noqa: PLC0415 - the compiler is slow to load

    if not _MIN_CELL_MM <= cell_mm <= _MAX_CELL_MM:
        message = f"A cell is {_MIN_CELL_MM:g} to {_MAX_CELL_MM:g} mm wide."
        raise FileRefusedError(message)
    if cloud.count > MAX_POINTS:
        message = f"The cloud holds {cloud.count} points and at most {MAX_POINTS} can be taken: thin it out."
        raise FileRefusedError(message)
    cell = max(1, round(cell_mm / cloud.step_mm))
    held = list(cloud.chunks())
    taken = sum(len(chunk.x) for chunk in held)
    if not taken:
        message = "The cloud holds no point that is taken: look whether it has points of the class ground."
        raise FileRefusedError(message)
    filled = [chunk for chunk in held if len(chunk.x)]
    low_x, high_x = min(int(c.x.min()) for c in filled), max(int(c.x.max()) for c in filled)
    low_y, high_y = min(int(c.y.min()) for c in filled), max(int(c.y.max()) for c in filled)
    low_x, low_y = (low_x // cell) * cell, (low_y // cell) * cell
    columns, rows = (high_x - low_x) // cell + 1, (high_y - low_y) // cell + 1
    if columns * rows > _MAX_CELLS:
        reach = f"The cloud reaches over {columns * rows} cells of {cell_mm:g} mm"
        message = f"{reach}: cut it to the garden, or take wider cells."
        raise FileRefusedError(message)
    counts = np.zeros((columns, rows), np.int32)
    for chunk in filled:
        count_into(chunk.x, chunk.y, low_x, low_y, cell, counts)
    place = np.cumsum(counts.ravel(), dtype=np.int64).reshape(counts.shape) - counts
    levels = np.empty(taken, np.int32)
    while filled:
        chunk = filled.pop(0)
        sort_into(chunk.x, chunk.y, chunk.z, low_x, low_y, cell, place, levels)
    found = np.empty((int((counts >= least).sum()), 3))
    number = medians_of(place, counts, levels, least, found)
    spots = found[:number]
    step = cloud.step_mm
    spots[:, 0] = cloud.origin_mm[0] + (low_x + (spots[:, 0] + 0.5) * cell) * step
    spots[:, 1] = cloud.origin_mm[1] + (low_y + (spots[:, 1] + 0.5) * cell) * step
    spots[:, 2] = cloud.origin_mm[2] + spots[:, 2] * step
    return CloudSurface(spots, (cloud.count, taken), cell * step)


def thinned(spots: np.ndarray, every_mm: float) -> np.ndarray:
    """Return one spot in each square of a coarser grid: the one nearest to the median level of its square.

    Args:
        spots: East, north, level, shape (n, 3), float64. [mm]
        every_mm: Side of a square. [mm]
    """
    keys = np.floor(spots[:, :2] / every_mm).astype(np.int64)
    order = np.lexsort((spots[:, 2], keys[:, 1], keys[:, 0]))
    sorted_keys = keys[order]
    starts = np.flatnonzero(np.r_[True, (np.diff(sorted_keys, axis=0) != 0).any(axis=1)])
    ends = np.r_[starts[1:], len(order)]
    found: np.ndarray = spots[order[(starts + ends - 1) // 2]]
    return found


def from_bytes(content: bytes) -> BinaryIO:
    """Return a file in memory."""
    return io.BytesIO(content)
