"""From volumes to materials: cement, sand, ballast, stone, fabric, edging."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from pavewright import units
from pavewright.buildup import LayerMaterial
from pavewright.job import Bedding, EdgeRestraint, MaterialKind
from pavewright.quantities._amounts import strip_m3
from pavewright.quantities._dimensions import Dimension, Drawn, across, with_depth, without_depth
from pavewright.quantities._edge_concrete import edge_concrete
from pavewright.quantities._keys import ItemKey, ItemKind, Measure, of_material
from pavewright.quantities._loose_sand import compacted, loose_need
from pavewright.quantities._measure import layer_volumes, sides_held
from pavewright.quantities._measured_areas import laid_lines, layer_lines
from pavewright.quantities._mixes import Mix, by_dry_volume, with_ballast
from pavewright.quantities._need import Need
from pavewright.quantities._printed_mixes import cement_spread
from pavewright.quantities._scope import ScopeKey, ScopeKind

if TYPE_CHECKING:
    from pavewright.buildup import BuildUps, EdgeSection
    from pavewright.job import Job
    from pavewright.laying import LayingPlan
    from pavewright.quantities._figures import QuantityFigures
    from pavewright.rules import Figure
    from pavewright.survey import Survey

SCOPE_BY_EDGE = {
    EdgeRestraint.EDGING: ScopeKind.EDGING,
    EdgeRestraint.KERB: ScopeKind.KERB,
    EdgeRestraint.HAUNCH: ScopeKind.HAUNCH,
}
"""Restraints that the job builds; walls and what is there already hold without it."""
_MATERIAL_BY_EDGE = {EdgeRestraint.EDGING: MaterialKind.EDGING, EdgeRestraint.KERB: MaterialKind.KERB}


_STONE_OF = {
    LayerMaterial.STONE: MaterialKind.SUB_BASE,
    LayerMaterial.CAPPING: MaterialKind.CAPPING,
    LayerMaterial.OPEN_STONE: MaterialKind.OPEN_STONE,
    LayerMaterial.GRIT: MaterialKind.GRIT,
}


class Materials:
    """Needs of a job by material, filled in the order of the work."""

    def __init__(self, job: Job, figures: QuantityFigures) -> None:
        """Start with nothing needed."""
        self._job, self.figures = job, figures
        self.serves = ScopeKey(ScopeKind.DIG)
        self.needs: dict[ItemKey, Need] = {}
        self.volumes: dict[ItemKind, Need] = {}

    def gather_layers(self, survey: Survey, laying: LayingPlan, build_ups: BuildUps) -> None:
        """Add what lies under the units."""
        self._layers(survey, laying, build_ups)

    def gather_edges(self, survey: Survey, laying: LayingPlan, build_ups: BuildUps) -> None:
        """Add what holds the edges, low walls, and what fills the joints."""
        self._edges(survey, build_ups)
        self._walls(survey, build_ups)
        self._joints(survey, laying, build_ups)

    def serve(self, scope: ScopeKey) -> None:
        """Say what the needs that follow are for."""
        self.serves = scope

    def need(self, material: MaterialKind, unit: Measure) -> Need:
        """Return the need of a material, to be added to."""
        return self._serving(self.needs.setdefault(of_material(material), Need(unit)))

    def volume(self, kind: ItemKind, unit: Measure) -> Need:
        """Return the need of a volume that is measured whole, to be added to."""
        return self._serving(self.volumes.setdefault(kind, Need(unit)))

    def _serving(self, need: Need) -> Need:
        need.scope.add(self.serves)
        need.serves = self.serves
        return need

    def _water(self) -> Need:
        return self._serving(self.needs.setdefault(ItemKey(ItemKind.WATER), Need(Measure.LITRE)))

    def _layers(self, survey: Survey, laying: LayingPlan, build_ups: BuildUps) -> None:
        for number, area in enumerate(survey.site.areas):
            self.serve(ScopeKey(ScopeKind.PAVING, number))
            bare_m2 = laying.area(area.name).under_steps_m2
            laid = laying.area(area.name)
            for each in layer_volumes(area, build_ups.area(area.name), bare_m2):
                lines = layer_lines(number, area, each, laid)
                said = f"{area.name}: {each.area_m2:.2f} m² × {each.layer.thickness_mm:g} mm"
                if each.layer.material is LayerMaterial.GEOTEXTILE:
                    self.need(MaterialKind.GEOTEXTILE, Measure.M2).add(
                        f"{area.name}", each.area_m2, self.figures.fabric_percent, lines=without_depth(lines)
                    )
                else:
                    self.layer(each.layer.material, said, each.volume_m3, lines)

    def layer(self, material: LayerMaterial, said: str, volume_m3: float, lines: tuple[Dimension, ...] = ()) -> None:
        """Add what a volume of a layer takes; nothing for units and for fabric, which have no volume."""
        if material is LayerMaterial.MORTAR:
            parts = self.figures.bed_sand_parts
            self.mortar(ItemKind.MORTAR_BED, said, volume_m3, parts, MaterialKind.SHARP_SAND, lines)
        elif material is LayerMaterial.CONCRETE:
            self.concrete(ItemKind.CONCRETE_BASE, said, volume_m3, lines)
        elif material in _STONE_OF:
            self.stone(said, volume_m3, lines, _STONE_OF[material])
        elif material is LayerMaterial.SAND:
            loose_m3, said = compacted(volume_m3, said, self._job.mixes)
            self._sand(MaterialKind.SHARP_SAND, said, loose_m3, self.figures.aggregate_percent, lines)

    def stone(
        self,
        said: str,
        volume_m3: float,
        lines: tuple[Dimension, ...] = (),
        material: MaterialKind = MaterialKind.SUB_BASE,
    ) -> None:
        """Add compacted stone, bought by mass."""
        density = self.figures.density[material]
        self.need(material, Measure.KG).add(
            f"{said} × {density.value:g} kg/m³",
            volume_m3 * density.value,
            self.figures.aggregate_percent,
            (density,),
            _spread(density),
            lines,
        )

    def _sand(
        self,
        key: MaterialKind,
        said: str,
        volume_m3: float,
        allowance: Figure,
        lines: tuple[Dimension, ...] = (),
    ) -> None:
        found = loose_need(self._job, key, said, volume_m3, self.figures.density[key])
        self.need(key, Measure.KG).add(found.words, found.kg, allowance, found.figures, found.spread, lines)

    def mortar(
        self,
        purpose: ItemKind,
        said: str,
        volume_m3: float,
        parts: Figure,
        sand: MaterialKind,
        lines: tuple[Dimension, ...] = (),
    ) -> Mix:
        """Add a volume of mortar: cement, sand, water."""
        factor = self.figures.mortar_dry_factor
        cement, lost = self.figures.cement_kg_per_m3, self.figures.mortar_percent
        mix = by_dry_volume(volume_m3, parts.value, 0.0, factor.value, cement.value)
        self._serving(self.volumes.setdefault(purpose, Need(Measure.M3))).add(said, volume_m3, lost, lines=lines)
        shared = f"{said} = {volume_m3:.3f} m³ × {factor.value:g}"
        whole = 1.0 + parts.value
        of_one = by_dry_volume(1.0, parts.value, 0.0, factor.value, cement.value).cement_kg
        spread, printed = cement_spread(parts.value, of_one, factor, self.figures.mortar_cement)
        self.need(MaterialKind.CEMENT, Measure.KG).add(
            f"{shared} / {whole:g} × {cement.value:g} kg/m³",
            mix.cement_kg,
            lost,
            (parts, factor, cement, *printed),
            spread,
            lines,
        )
        self._sand(sand, f"{shared} × {parts.value:g} / {whole:g}", mix.sand_m3, lost, lines)
        water = self.figures.mortar_water_l_per_m3
        self._water().add(f"{said} × {water.value:g} l/m³", volume_m3 * water.value, lost, (water,), lines=lines)
        return mix

    def concrete(
        self,
        purpose: ItemKind,
        said: str,
        volume_m3: float,
        lines: tuple[Dimension, ...] = (),
        figures: tuple[Figure, ...] = (),
    ) -> None:
        """Add a volume of concrete from all-in ballast."""
        parts, factor = self.figures.base_ballast_parts, self.figures.ballast_factor
        cement, lost = self.figures.cement_kg_per_m3, self.figures.concrete_percent
        mix = with_ballast(volume_m3, parts.value, factor.value, cement.value)
        volume = self._serving(self.volumes.setdefault(purpose, Need(Measure.M3)))
        volume.add(said, volume_m3, lost, figures, lines=lines)
        shared = f"{said} = {volume_m3:.3f} m³ × {factor.value:g}"
        self.need(MaterialKind.CEMENT, Measure.KG).add(
            f"{shared} / {parts.value:g} × {cement.value:g} kg/m³",
            mix.cement_kg,
            lost,
            (parts, factor, cement),
            _spread(factor),
            lines,
        )
        self._sand(MaterialKind.BALLAST, shared, mix.sand_m3, lost, lines)
        water = self.figures.water_per_cement
        words = f"{said}: {mix.cement_kg:.0f} kg cement × {water.value:g}"
        self._water().add(words, mix.cement_kg * water.value, lost, (water,), lines=lines)

    def _walls(self, survey: Survey, build_ups: BuildUps) -> None:
        """Add low retaining walls and guards at drops."""
        places = {area.name: number for number, area in enumerate(survey.site.areas)}
        for edge in build_ups.retained:
            place, number = f"{edge.area}, side {edge.side}", places[edge.area]
            if edge.guarded_mm > 0.0:
                self.serve(ScopeKey(ScopeKind.GUARD, number))
                self.need(MaterialKind.GUARD, Measure.METRE).count(
                    place,
                    units.mm_to_m(edge.guarded_mm),
                    lines=(
                        Dimension(place, Drawn.LEVELS, self.serves, edge.side, length_m=units.mm_to_m(edge.guarded_mm)),
                    ),
                )
            if edge.wall is None:
                continue
            self.serve(ScopeKey(ScopeKind.LOW_WALL, number))
            along = (Dimension(place, Drawn.LEVELS, self.serves, edge.side, length_m=units.mm_to_m(edge.length_mm)),)
            trench = self._serving(self.volumes.setdefault(ItemKind.WALL_TRENCH, Need(Measure.M3)))
            trench.count(place, edge.wall.trench_m3, lines=along)
            self.concrete(ItemKind.WALL_FOOTING, place, edge.wall.footing_m3, along)
            self.need(MaterialKind.WALLING, Measure.M2).add(
                place, edge.wall.face_m2, self.figures.walling_percent, lines=along
            )
            lost = self.figures.aggregate_percent
            self._sand(MaterialKind.DRAIN_STONE, place, edge.wall.drain_stone_m3, lost, along)

    def _edges(self, survey: Survey, build_ups: BuildUps) -> None:
        for number, area in enumerate(survey.site.areas):
            for restraint, sides in sides_held(area).items():
                if restraint not in SCOPE_BY_EDGE:
                    continue
                scope = ScopeKey(SCOPE_BY_EDGE[restraint], number)
                self.serve(scope)
                length = sum(each for _, each in sides)
                lines = tuple(
                    Dimension(f"{area.name}: {restraint.value}", Drawn.LEVELS, scope, side, length_m=each)
                    for side, each in sides
                )
                if restraint in _MATERIAL_BY_EDGE:
                    self.need(_MATERIAL_BY_EDGE[restraint], Measure.METRE).add(
                        f"{area.name}", length, self.figures.edging_percent, lines=lines
                    )
                section = build_ups.area(area.name).edge(restraint)
                self._edge_trench(area.name, section, lines)
                for part in edge_concrete(section):
                    said = f"{area.name}: {part.words}, {length:.2f} m × {part.sizes}"
                    cut = tuple(replace(line, words=f"{area.name}: {part.words}") for line in lines)
                    cut = across(cut, part.width_mm, part.depth_mm)
                    volume = strip_m3(length, part.width_mm, part.depth_mm)
                    self.concrete(ItemKind.EDGE_CONCRETE, said, volume, cut, part.figures)

    def _edge_trench(self, area: str, section: EdgeSection, lines: tuple[Dimension, ...]) -> None:
        """Add what is dug below formation for a bed."""
        wide, deep = section.bed_mm[0], section.trench_mm
        if deep <= 0.0:
            return
        cut = across((replace(line, words=f"{area}: trench for the bed") for line in lines), wide, deep)
        said = f"{area}: bed of {section.restraint.value}, {wide:g} × {deep:g} mm below formation"
        trench = self._serving(self.volumes.setdefault(ItemKind.EDGE_TRENCH, Need(Measure.M3)))
        trench.count(said, sum(line.squared for line in cut), section.decided_by, cut)

    def _joints(self, survey: Survey, laying: LayingPlan, build_ups: BuildUps) -> None:
        open_joints = {each.area for each in build_ups.areas if each.is_permeable}
        for number, laid in enumerate(laying.areas):
            self.serve(ScopeKey(ScopeKind.PAVING, number))
            unit = self._job.unit(laid.unit)
            volume = laid.joint_m2 * units.mm_to_m(unit.thickness_mm)
            said = f"{laid.area}: {laid.joint_m2:.3f} m² of joint × {unit.thickness_mm:g} mm"
            measured = laid_lines(number, survey.site.area(laid.area), laid)
            faces = Dimension(f"{laid.area}: faces of the pieces", Drawn.LAYING, self.serves, area_m2=laid.paved_m2)
            lines = with_depth((*measured, replace(faces, times=-1.0)), unit.thickness_mm)
            if survey.site.area(laid.area).area.laying.bedding is Bedding.SAND_ON_SUB_BASE:
                kind = MaterialKind.GRIT if laid.area in open_joints else MaterialKind.JOINT_SAND
                self._sand(kind, said, volume, self.figures.aggregate_percent, lines)
                continue
            parts = self.figures.pointing_sand_parts
            mix = self.mortar(ItemKind.POINTING, said, volume, parts, MaterialKind.SOFT_SAND, lines)
            dose = self.figures.plasticiser_l_per_kg
            words = f"{laid.area}: {mix.cement_kg:.1f} kg cement × {dose.value:g} l/kg"
            lost = self.figures.mortar_percent
            need = self.need(MaterialKind.PLASTICISER, Measure.LITRE)
            need.add(words, mix.cement_kg * dose.value, lost, (dose,), lines=lines)
            if unit.low_absorption:
                coat = self.figures.bond_coat_kg_per_m2
                words = f"{laid.area}: {laid.paved_m2:.2f} m² × {coat.value:g} kg/m²"
                need = self.need(MaterialKind.BOND_COAT, Measure.KG)
                need.add(words, laid.paved_m2 * coat.value, lost, (coat,), lines=(faces,))


def _spread(figure: Figure) -> tuple[float, float]:
    """Return a figure's ends as parts of its value."""
    low = figure.value if figure.low is None else figure.low
    high = figure.value if figure.high is None else figure.high
    return low / figure.value, high / figure.value
