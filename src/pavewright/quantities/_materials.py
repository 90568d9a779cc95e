"""From volumes to materials: cement, sand, ballast, stone, fabric, edging."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright import units
from pavewright.job import Bedding, EdgeRestraint, MaterialKind
from pavewright.quantities._keys import ItemKey, ItemKind, of_material
from pavewright.quantities._measure import channel_m, edge_lengths, layer_volumes
from pavewright.quantities._mixes import Mix, by_dry_volume, with_ballast
from pavewright.quantities._need import Need

if TYPE_CHECKING:
    from pavewright.buildup import BuildUps
    from pavewright.earthworks import Earthworks
    from pavewright.job import Job
    from pavewright.laying import LayingPlan
    from pavewright.rules import Figure, Rulebook
    from pavewright.survey import Survey

_NOTHING_M3 = 1e-9
_CONCRETE_BY_EDGE = {
    EdgeRestraint.EDGING: "quantities.edging_concrete_m3_per_m",
    EdgeRestraint.KERB: "quantities.kerb_concrete_m3_per_m",
    EdgeRestraint.HAUNCH: "quantities.haunch_concrete_m3_per_m",
}
_MATERIAL_BY_EDGE = {EdgeRestraint.EDGING: MaterialKind.EDGING, EdgeRestraint.KERB: MaterialKind.KERB}


class Materials:
    """Needs of a job by material, filled in the order of the work."""

    def __init__(self, job: Job, rules: Rulebook) -> None:
        """Start with nothing needed."""
        self._job, self._rules = job, rules
        self.needs: dict[ItemKey, Need] = {}
        self.volumes: dict[ItemKind, Need] = {}

    def gather(self, survey: Survey, laying: LayingPlan, build_ups: BuildUps, earthworks: Earthworks) -> None:
        """Add everything that the job takes."""
        self._layers(survey, build_ups)
        bought = earthworks.fill_m3 - earthworks.reused_m3
        if bought > _NOTHING_M3:
            self._stone(f"fill below formation {bought:.3f} m³", bought)
        self._edges(survey)
        self._joints(survey, laying)

    def _need(self, material: MaterialKind, unit: str) -> Need:
        return self.needs.setdefault(of_material(material), Need(unit))

    def _water(self) -> Need:
        return self.needs.setdefault(ItemKey(ItemKind.WATER), Need("litre"))

    def _figure(self, name: str) -> Figure:
        return self._rules.figure(f"quantities.{name}")

    def _layers(self, survey: Survey, build_ups: BuildUps) -> None:
        for area in survey.site.areas:
            for each in layer_volumes(area, build_ups.area(area.name)):
                said = f"{area.name}: {each.area_m2:.2f} m² × {each.layer.thickness_mm:g} mm"
                if each.layer.material == "mortar_1_6":
                    self._mortar(ItemKind.MORTAR_BED, said, each.volume_m3, "bed_sand_parts", MaterialKind.SHARP_SAND)
                elif each.layer.material == "concrete_ballast_1_6":
                    self._concrete(ItemKind.CONCRETE_BASE, said, each.volume_m3)
                elif each.layer.material == "sub_base":
                    self._stone(said, each.volume_m3)
                elif each.layer.material == "sharp_sand":
                    self._sand(MaterialKind.SHARP_SAND, said, each.volume_m3, self._figure("aggregate_percent"))
                elif each.layer.material == "geotextile":
                    self._need(MaterialKind.GEOTEXTILE, "m²").add(
                        f"{area.name}", each.area_m2, self._figure("fabric_percent")
                    )

    def _stone(self, said: str, volume_m3: float) -> None:
        """Add compacted stone, bought by mass."""
        density = self._figure("sub_base_compacted_kg_per_m3")
        self._need(MaterialKind.SUB_BASE, "kg").add(
            f"{said} × {density.value:g} kg/m³",
            volume_m3 * density.value,
            self._figure("aggregate_percent"),
            (density,),
            _spread(density),
        )

    def _sand(self, key: MaterialKind, said: str, volume_m3: float, allowance: Figure) -> None:
        figure = self._figure(f"{key.value}_kg_per_m3")
        own = next((m.bulk_kg_per_m3 for m in self._job.rates.materials if m.key == key and m.bulk_kg_per_m3), None)
        density = own if own is not None else figure.value
        self._need(key, "kg").add(
            f"{said} × {density:g} kg/m³",
            volume_m3 * density,
            allowance,
            () if own is not None else (figure,),
            (1.0, 1.0) if own is not None else _spread(figure),
        )

    def _mortar(self, purpose: ItemKind, said: str, volume_m3: float, parts_name: str, sand: MaterialKind) -> Mix:
        """Add a volume of mortar: cement, sand, water."""
        parts, factor = self._figure(parts_name), self._figure("mortar_dry_factor")
        cement, lost = self._figure("cement_kg_per_m3"), self._figure("mortar_percent")
        mix = by_dry_volume(volume_m3, parts.value, 0.0, factor.value, cement.value)
        self.volumes.setdefault(purpose, Need("m³")).add(said, volume_m3, lost)
        shared = f"{said} = {volume_m3:.3f} m³ × {factor.value:g}"
        whole = 1.0 + parts.value
        self._need(MaterialKind.CEMENT, "kg").add(
            f"{shared} / {whole:g} × {cement.value:g} kg/m³",
            mix.cement_kg,
            lost,
            (parts, factor, cement),
            _spread(factor),
        )
        self._sand(sand, f"{shared} × {parts.value:g} / {whole:g}", mix.sand_m3, lost)
        water = self._figure("mortar_water_l_per_m3")
        self._water().add(f"{said} × {water.value:g} l/m³", volume_m3 * water.value, lost, (water,))
        return mix

    def _concrete(self, purpose: ItemKind, said: str, volume_m3: float) -> None:
        """Add a volume of concrete from all-in ballast."""
        parts, factor = self._figure("base_ballast_parts"), self._figure("ballast_factor")
        cement, lost = self._figure("cement_kg_per_m3"), self._figure("concrete_percent")
        mix = with_ballast(volume_m3, parts.value, factor.value, cement.value)
        self.volumes.setdefault(purpose, Need("m³")).add(said, volume_m3, lost)
        shared = f"{said} = {volume_m3:.3f} m³ × {factor.value:g}"
        self._need(MaterialKind.CEMENT, "kg").add(
            f"{shared} / {parts.value:g} × {cement.value:g} kg/m³",
            mix.cement_kg,
            lost,
            (parts, factor, cement),
            _spread(factor),
        )
        self._sand(MaterialKind.BALLAST, shared, mix.sand_m3, lost)
        water = self._figure("water_per_cement")
        words = f"{said}: {mix.cement_kg:.0f} kg cement × {water.value:g}"
        self._water().add(words, mix.cement_kg * water.value, lost, (water,))

    def _edges(self, survey: Survey) -> None:
        for area in survey.site.areas:
            for restraint, length in edge_lengths(area).items():
                if restraint not in _CONCRETE_BY_EDGE:
                    continue
                if restraint in _MATERIAL_BY_EDGE:
                    self._need(_MATERIAL_BY_EDGE[restraint], "m").add(
                        f"{area.name}", length, self._figure("edging_percent")
                    )
                each = self._rules.figure(_CONCRETE_BY_EDGE[restraint])
                said = f"{area.name}: {length:.2f} m of {restraint.value} × {each.value:g} m³/m"
                self._concrete(ItemKind.EDGE_CONCRETE, said, length * each.value)
        for channel in survey.site.channels:
            length = channel_m(channel)
            self._need(MaterialKind.CHANNEL, "m").add(f"{channel.name}", length, self._figure("edging_percent"))
            each = self._figure("channel_concrete_m3_per_m")
            said = f"{channel.name}: {length:.2f} m × {each.value:g} m³/m"
            self._concrete(ItemKind.EDGE_CONCRETE, said, length * each.value)

    def _joints(self, survey: Survey, laying: LayingPlan) -> None:
        for laid in laying.areas:
            unit = self._job.unit(laid.unit)
            volume = laid.joint_m2 * units.mm_to_m(unit.thickness_mm)
            said = f"{laid.area}: {laid.joint_m2:.3f} m² of joint × {unit.thickness_mm:g} mm"
            if survey.site.area(laid.area).area.laying.bedding is Bedding.SAND_ON_SUB_BASE:
                self._sand(MaterialKind.JOINT_SAND, said, volume, self._figure("aggregate_percent"))
                continue
            mix = self._mortar(ItemKind.POINTING, said, volume, "pointing_sand_parts", MaterialKind.SOFT_SAND)
            dose = self._figure("plasticiser_l_per_kg")
            words = f"{laid.area}: {mix.cement_kg:.1f} kg cement × {dose.value:g} l/kg"
            lost = self._figure("mortar_percent")
            self._need(MaterialKind.PLASTICISER, "litre").add(words, mix.cement_kg * dose.value, lost, (dose,))
            if unit.low_absorption:
                coat = self._figure("bond_coat_kg_per_m2")
                words = f"{laid.area}: {laid.paved_m2:.2f} m² × {coat.value:g} kg/m²"
                self._need(MaterialKind.BOND_COAT, "kg").add(words, laid.paved_m2 * coat.value, lost, (coat,))


def _spread(figure: Figure) -> tuple[float, float]:
    """Return a figure's ends as parts of its value."""
    low = figure.value if figure.low is None else figure.low
    high = figure.value if figure.high is None else figure.high
    return low / figure.value, high / figure.value
