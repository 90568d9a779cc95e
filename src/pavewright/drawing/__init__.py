"""Drawing: a plan as pictures that can be measured.

Each builder turns a plan into a scene: lines, hatches, words and signs at a scale. One scene feeds the SVG of a page
and of a screen. Everything is kept apart by hatch, sign and word, so that it reads in black and white. The DXF holds
the same things in true millimetres on layers.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.drawing._bars import programme_bars
    from pavewright.drawing._changes import PlacedChange, changes_between, changes_by_variations
    from pavewright.drawing._charts import ChartPoint, ChartStep, curve_chart, waterfall_chart
    from pavewright.drawing._dxf import to_dxf
    from pavewright.drawing._edge_section import edge_details
    from pavewright.drawing._grid import SiteGrid, grid_of
    from pavewright.drawing._layers_picture import layer_pictures
    from pavewright.drawing._laying_parts import LayingPart, laying_parts
    from pavewright.drawing._laying_squares import LayingSquare, laying_squares
    from pavewright.drawing._long_section import drain_sections
    from pavewright.drawing._movement_detail import movement_details
    from pavewright.drawing._pit_section import pit_sections
    from pavewright.drawing._plan_buried import buried_plan
    from pavewright.drawing._plan_checks import as_laid_plan, setting_out_plan
    from pavewright.drawing._plan_drop import drop_plan
    from pavewright.drawing._plan_film import film_plan
    from pavewright.drawing._plan_laying import laying_plan
    from pavewright.drawing._plan_levels import levels_plan
    from pavewright.drawing._plan_revision import revision_plan, variations_plan
    from pavewright.drawing._plan_standing import standing_plan
    from pavewright.drawing._plan_survey import site_plan
    from pavewright.drawing._plan_works import dig_plan, water_plan
    from pavewright.drawing._register import DRAWINGS, Drawing
    from pavewright.drawing._saw_plan import cuts_in_words, saw_drawings
    from pavewright.drawing._scene import Scene, choose_scale
    from pavewright.drawing._section import section_at_wall, wall_sections
    from pavewright.drawing._sheet import A3_FRAME, A4_FRAME
    from pavewright.drawing._sketch_grid import sketch_grid
    from pavewright.drawing._steps_section import step_sections
    from pavewright.drawing._svg import stacked_svg, to_svg
    from pavewright.drawing._tap_picture import tap_picture
    from pavewright.drawing._templates import template_scenes
    from pavewright.drawing._true_size import TrueSizeSheet, true_size_sheets
    from pavewright.drawing._variation import variation_layers, variation_plan
else:
    __getattr__ = face(__name__)

__all__ = [
    "A3_FRAME",
    "A4_FRAME",
    "DRAWINGS",
    "ChartPoint",
    "ChartStep",
    "Drawing",
    "LayingPart",
    "LayingSquare",
    "PlacedChange",
    "Scene",
    "SiteGrid",
    "TrueSizeSheet",
    "as_laid_plan",
    "buried_plan",
    "changes_between",
    "changes_by_variations",
    "choose_scale",
    "curve_chart",
    "cuts_in_words",
    "dig_plan",
    "drain_sections",
    "drop_plan",
    "edge_details",
    "film_plan",
    "grid_of",
    "layer_pictures",
    "laying_parts",
    "laying_plan",
    "laying_squares",
    "levels_plan",
    "movement_details",
    "pit_sections",
    "programme_bars",
    "revision_plan",
    "saw_drawings",
    "section_at_wall",
    "setting_out_plan",
    "site_plan",
    "sketch_grid",
    "stacked_svg",
    "standing_plan",
    "step_sections",
    "tap_picture",
    "template_scenes",
    "to_dxf",
    "to_svg",
    "true_size_sheets",
    "variation_layers",
    "variation_plan",
    "variations_plan",
    "wall_sections",
    "water_plan",
    "waterfall_chart",
]
