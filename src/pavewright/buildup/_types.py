"""What the build-up room hands on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pavewright.findings import Finding
    from pavewright.geometry import FoldedSurface, Shape
    from pavewright.rules import Figure
    from pavewright.sums import Working


@dataclass(frozen=True, slots=True)
class Layer:
    """One layer of the build-up.

    Attributes:
        key: ``unit``, ``bed``, ``base``, ``sub_base`` or ``capping``.
        name: Its name in the trade's words.
        thickness_mm: Thickness when compacted or set. [mm]
        material: Rulebook material key or mix ("mortar_1_6", "concrete_ballast_1_6", "sub_base", "sharp_sand").
        extends_mm: How far it runs past the edge of the paving where nothing stands in the way. [mm]
        decided_by: Figures that decided thickness and extent.
        why: The rule in words.
    """

    key: str
    name: str
    thickness_mm: float
    material: str
    extends_mm: float
    decided_by: tuple[Figure, ...]
    why: str


@dataclass(frozen=True)
class AreaBuildUp:
    """The build-up of one area.

    Attributes:
        area: Name of the area.
        layers: From the top down.
        total_mm: Total thickness. [mm]
        formation: The formation: the finished surface lowered by the total. [mm]
        dig_shape: Plan shape that is dug: the paving with its extent past free edges.
        cbr_percent: Bearing ratio that was used; None where unbound layers do not depend on it. [%]
        workings: The sums behind thickness and depth.
    """

    area: str
    layers: tuple[Layer, ...]
    total_mm: float
    formation: FoldedSurface
    dig_shape: Shape
    cbr_percent: float | None
    workings: tuple[Working, ...]

    def top_of(self, key: str) -> float:
        """Return how far the top of a layer lies below the finished surface. [mm].

        Raises:
            KeyError: no such layer.
        """
        depth = 0.0
        for layer in self.layers:
            if layer.key == key:
                return depth
            depth += layer.thickness_mm
        raise KeyError(key)


@dataclass(frozen=True)
class BuildUps:
    """The build-up of all areas."""

    areas: tuple[AreaBuildUp, ...]
    findings: tuple[Finding, ...]

    def area(self, name: str) -> AreaBuildUp:
        """Return the build-up of an area."""
        return next(area for area in self.areas if area.area == name)
