"""What every plan has: a growing list of elements, labels that do not collide, a key, north and a scale bar."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import shapely

from pavewright.drawing._foot import (
    KEY_TYPE_MM,
    MIN_WIDE_MM,
    NOTE_MM,
    RIM_MM,
    KeyItem,
    draw_foot,
    foot_mm,
    rows_of,
    scale_of,
)
from pavewright.drawing._grid import BAND_MM, SiteGrid, grid_margins
from pavewright.drawing._labels import Box, Labels, Spot
from pavewright.drawing._scene import (
    HAIR,
    Element,
    Path,
    Scene,
    Words,
)
from pavewright.drawing._type import LINE, MIN_TYPE_MM, short, width_of, wrapped
from pavewright.survey import assumed_names
from pavewright.writing import worded

if TYPE_CHECKING:
    from collections.abc import Iterable

    from pavewright.geometry import XY
    from pavewright.survey import AssumedFact

A3_FRAME = (396.0, 244.0)
"""Room for a plan on an A3 sheet. [mm]"""
A4_FRAME = (178.0, 226.0)
"""Room for a drawing on an A4 sheet. [mm]"""
_UPRIGHT_WIDER_MM, _UPRIGHT_LOWER_MM = 28.0, 40.0
"""What a sheet turned upright gains in width and loses in height against its frame turned: head and foot. [mm]"""
_UNDER_WIDE_MM, _MIN_HIGH_MM = 180.0, 60.0
"""Width at which sentences under a plan are counted, and what is left for the plan however many there are. [mm]"""
_SHARES = (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8)
"""Where along a line its words may stand, as parts of its length. [-]"""
_WIDEST_MM = 62.0
"""Words below a label are broken into lines of this width on paper. [mm]"""
_AIR_MM = 0.8
"""What stays free before and after words on a line. [mm]"""
_MUCH_BETTER = 0.3
"""How much better a later place along a line must be. [-]"""


class Sheet:
    """Elements of one plan at one scale."""

    def __init__(
        self,
        points: Iterable[XY],
        frame_mm: tuple[float, float] = A3_FRAME,
        key: tuple[KeyItem, ...] = (),
        grid: SiteGrid | None = None,
        scale: int | None = None,
        under: Iterable[str] = (),
    ) -> None:
        """Take the points that the plan has to show, the room on paper and the key; choose the scale that fits.

        Where a grid is given, its letters and numbers stand at the margins; a scale that is given is kept.
        Room is kept for sentences that are to stand under the plan.
        """
        band = 0.0 if grid is None else BAND_MM
        kept = NOTE_MM * sum(len(wrapped(worded(each), _UNDER_WIDE_MM, KEY_TYPE_MM)) for each in under)
        # a long narrow site stands upright on the sheet where that shows it larger
        stands = frame_mm[1] + _UPRIGHT_WIDER_MM - band, frame_mm[0] - _UPRIGHT_LOWER_MM - band - kept
        lies = frame_mm[0] - band, max(frame_mm[1] - band - kept, _MIN_HIGH_MM)
        xs, ys = zip(*points, strict=True)
        wide, high = max(xs) - min(xs), max(ys) - min(ys)
        fitting = min(scale_of(wide, high, key, lies), scale_of(wide, high, key, stands))
        self.scale = fitting if scale is None else scale
        rim = self.mm(RIM_MM)
        spare = max(0.0, self.mm(MIN_WIDE_MM) - wide - 2.0 * rim) / 2.0
        self._rows = rows_of(key, max(wide / self.scale + 2.0 * RIM_MM, MIN_WIDE_MM))
        foot = min(ys) - self.mm(RIM_MM)
        self.bounds = (
            min(xs) - rim - spare,
            foot - self.mm(foot_mm(self._rows)),
            max(xs) + rim + spare,
            max(ys) + rim,
        )
        edge = self.mm(1.0)
        self.field = (self.bounds[0] + edge, foot, self.bounds[2] - edge, self.bounds[3] - edge)
        x1, y1, x2, y2 = self.bounds
        self.bounds = (x1 - self.mm(band), y1, x2, y2 + self.mm(band))
        self.elements: list[Element] = []
        self.left_out = 0
        self.notes: list[str] = []
        self._layer = "sheet"
        self._labels = Labels(self.scale)
        if grid is not None:
            margins = grid_margins(grid, self.field, self.bounds, self.scale)
            self.elements.extend(replace(element, layer="grid") for element in margins)

    def mm(self, paper_mm: float) -> float:
        """Return a length on paper as a length on the site. [mm]."""
        return paper_mm * self.scale

    def on(self, layer: str) -> Sheet:
        """Draw what follows on a layer."""
        self._layer = layer
        return self

    def add(self, *elements: Element) -> None:
        """Draw over what is there; a straight line that runs off the sheet ends at its edge."""
        for element in elements:
            if isinstance(element, Path) and not element.closed and not element.rises_mm:
                self.elements.extend(replace(part, layer=self._layer) for part in self._clipped(element))
            else:
                self.elements.append(replace(element, layer=self._layer))

    def _clipped(self, path: Path) -> list[Path]:
        x1, y1, x2, y2 = self.field
        if all(x1 <= x <= x2 and y1 <= y <= y2 for x, y in path.points) or len(path.points) == 1:
            return [path]
        inside = shapely.intersection(shapely.LineString(path.points), shapely.box(x1, y1, x2, y2))
        parts = [shapely.get_coordinates(part) for part in shapely.get_parts(inside)]
        return [replace(path, points=tuple((float(x), float(y)) for x, y in part)) for part in parts if len(part) > 1]

    def keep_clear(self, at: XY, size_mm: float) -> None:
        """Keep labels off a symbol of a size on paper."""
        half = self.mm(size_mm) / 2.0
        self._labels.take_sign((at[0] - half, at[1] - half, at[0] + half, at[1] + half))

    def keep_clear_of(self, outline: tuple[XY, ...]) -> None:
        """Keep labels off something that stands on the site."""
        xs, ys = zip(*outline, strict=True)
        self._labels.take_sign((min(xs), min(ys), max(xs), max(ys)))

    def lines_done(self) -> None:
        """Tell that the lines are drawn, so that labels keep off them."""
        self._labels.lines(self.elements)

    def label(
        self,
        at: XY,
        text: str,
        height_mm: float = 2.2,
        *,
        bold: bool = False,
        under: str = "",
        home: shapely.Polygon | None = None,
        led: bool = False,
    ) -> bool:
        """Write a label beside a place where nothing is written yet; further off it gets a leader.

        Args:
            at: The place. [mm]
            text: The label.
            height_mm: Height of the type on paper. [mm]
            bold: Whether its first line is bold.
            under: A second line.
            home: A shape in which the label had better stay.
            led: Whether it needs a leader however near it stands.

        Returns:
            Whether it was written; where there is no room it is left out and counted.
        """
        return self.label_one_of((at,), text, height_mm, bold=bold, under=under, home=home, led=led)

    def label_along(
        self, points: tuple[XY, ...], text: str, height_mm: float = 2.2, *, bold: bool = False, under: str = ""
    ) -> bool:
        """Write a label beside a line, near its middle where that can be."""
        line = shapely.LineString(points)
        places = (shapely.line_interpolate_point(line, share, normalized=True) for share in _SHARES)
        return self.label_one_of(((p.x, p.y) for p in places), text, height_mm, bold=bold, under=under)

    def label_one_of(
        self,
        places: Iterable[XY],
        text: str,
        height_mm: float,
        *,
        bold: bool = False,
        under: str = "",
        home: shapely.Polygon | None = None,
        led: bool = False,
    ) -> bool:
        """Write a label beside the first of some places that has room close by, else beside the best one."""
        height_mm = max(height_mm, MIN_TYPE_MM)
        below = wrapped(worded(under), _WIDEST_MM, height_mm)
        lines = [(worded(short(text)), bold), *((short(line), False) for line in below)]
        wide = self.mm(max(width_of(words, height_mm, bold=heavy) for words, heavy in lines))
        line = self.mm(height_mm * LINE)
        best: tuple[Spot, XY] | None = None
        for at in places:
            spot = self._labels.place(at, (wide, line * len(lines)), self.field, home, led=led)
            if best is None or spot.cost < best[0].cost - _MUCH_BETTER:
                best = spot, at
        if best is None or not best[0].free:
            self.left_out += 1
            return False
        spot, at = best
        x1, _, x2, top = spot.bounds_mm
        right = (x1 + x2) / 2.0 < at[0] - self.mm(0.3)
        self._labels.take(spot.bounds_mm)
        if spot.line is not None:
            self._labels.take_line(*spot.line)
            self.add(Path(spot.line, HAIR, leads=True))
        for number, (words, heavy) in enumerate(lines):
            place = (x2 if right else x1, top - line * (number + 0.5))
            self.add(Words(place, words, height_mm, "end" if right else "start", heavy, white=True))
        return True

    def write_if_free(self, places: Iterable[XY], text: str, height_mm: float, *, on_dark: bool = True) -> bool:
        """Write words at the first of some places where nothing is written and no hatch or heavy line runs.

        Where none is clear of hatches and lines they stand on them, unless that is not wanted; where all are written on
        they are left out.
        """
        text, height_mm = worded(text), max(height_mm, MIN_TYPE_MM)
        wide, high = self.mm(width_of(text, height_mm)), self.mm(height_mm * LINE)
        air = self.mm(_AIR_MM)
        fx1, fy1, fx2, fy2 = self.field
        free: list[tuple[XY, Box]] = []
        for x, y in places:
            box = (x - wide / 2.0, y - high / 2.0, x + wide / 2.0, y + high / 2.0)
            inside = fx1 <= box[0] and fy1 <= box[1] and box[2] <= fx2 and box[3] <= fy2
            if inside and not self._labels.taken((box[0] - air, box[1], box[2] + air, box[3])):
                free.append(((x, y), box))
        if not free:
            return False
        clear = next((each for each in free if not self._labels.on_dark(each[1])), None)
        if clear is None and not on_dark:
            return False
        at, box = clear or free[0]
        self._labels.take(box)
        self.add(Words(at, text, height_mm, white=True))
        return True

    def write_along(self, start: XY, end: XY, text: str, height_mm: float) -> bool:
        """Write words on a line where there is room, at its middle if that can be."""
        places = [(start[0] + (end[0] - start[0]) * k, start[1] + (end[1] - start[1]) * k) for k in _SHARES]
        return self.write_if_free(places, text, height_mm)

    def boxes(self) -> tuple[tuple[float, float, float, float], ...]:
        """Return the boxes that labels and symbols take. [mm]."""
        return tuple(self._labels.boxes)

    def tell_assumed(self, facts: Iterable[AssumedFact]) -> None:
        """Say under the plan what it rests on that nobody measured."""
        names = assumed_names(facts)
        if names:
            self.notes.append(f"Assumed, not measured: {names}.")

    def scene(self, name: str, title: str, about: str, north_deg: float | None) -> Scene:
        """Return the finished scene, with the key, a scale bar and north at its foot.

        Args:
            name: File name without its ending.
            title: Title in words.
            about: What the drawing shows, for people who cannot see it.
            north_deg: Direction of north, clockwise from the y axis; None where nobody took it. [deg]
        """
        self.on("sheet")
        foot = draw_foot(self._rows, self.bounds, self.field[1], self.scale, north_deg)
        self.elements.extend(replace(element, layer="sheet") for element in foot)
        if self.left_out:
            many = f"{self.left_out} labels" if self.left_out > 1 else "1 label"
            self.notes.append(f"No room here for {many}: see the lists.")
        wide = (self.bounds[2] - self.bounds[0]) / self.scale - 6.0
        for note in (line for whole in self.notes for line in wrapped(worded(whole), wide, KEY_TYPE_MM)):
            x1, y1, x2, y2 = self.bounds
            self.bounds = (x1, y1 - self.mm(NOTE_MM), x2, y2)
            self.add(Words((x1 + self.mm(3.0), y1 - self.mm(NOTE_MM / 2.0 - 1.0)), note, KEY_TYPE_MM, "start"))
        about = " ".join((about, *self.notes))
        return Scene(name, title, tuple(self.elements), self.bounds, self.scale, about)
