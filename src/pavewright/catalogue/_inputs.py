"""Inputs of sums as people type them: a length, a fall or a plain number, with its unit or without."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.sums import SumRefusedError
from pavewright.typed import FallUnit, LengthKind, fall_typed, length_typed

if TYPE_CHECKING:
    from pavewright.sums import Quantity, Value
    from pavewright.typed import Typed

_OF_KIND: dict[LengthKind | None, str] = {
    LengthKind.SITE: (
        "across_mm bay_length_mm bay_width_mm chord_mm cross_run_mm diagonal_1_mm diagonal_2_mm distance_a_mm "
        "distance_b_mm from_a_mm from_b_mm interval_mm length_mm lengths_mm longest_mm overhang_mm radius_mm "
        "room_a_mm room_b_mm run_mm side_a_mm side_b_mm spacing_across_mm spacing_along_mm spacing_mm step_mm "
        "wheelbase_mm edges_mm contacts_mm base_mm distance_mm first_mm offset_mm reach_mm second_mm span_mm tape_mm"
    ),
    LengthKind.PLACE: (
        "a_x_mm a_y_mm along_mm at_mm b_x_mm b_y_mm east_mm eastings_mm from_middle_mm known_x_mm known_y_mm "
        "north_mm northings_mm x_mm y_mm"
    ),
    LengthKind.LEVEL: (
        "corner_1_mm corner_2_mm corner_3_mm corner_4_mm dpc_mm finished_mm first_level_mm formation_mm "
        "foot_mm ground_mm head_mm held_mm high_mm known_mm level_a_mm level_b_mm level_mm levels_mm low_mm string_mm"
    ),
    LengthKind.READING: (
        "backsight_mm equal_a_mm equal_b_mm first_read_mm over_mm reading_a_mm reading_b_mm readings_mm second_read_mm"
    ),
    LengthKind.OFFSET: (
        "above_mm below_dpc_mm below_mm deep_mm depth_mm dig_mm dish_mm drop_mm edge_mm end_mm heights_mm higher_mm "
        "haunch_top_mm max_mm offsets_mm ponding_mm rise_mm room_mm soil_mm spread_mm wanted_mm water_mm "
        "outlet_water_mm tap_across_mm tap_along_mm offs_mm middle_mm one_end_mm"
    ),
    LengthKind.SIZE: (
        "bed_width_mm haunch_foot_mm haunch_height_mm unit_height_mm "
        "bore_mm diameter_mm drawn_mm going_mm inner_mm outlet_side_mm round_mm side_mm sizes_mm "
        "slab_length_mm slab_mm slab_width_mm top_width_mm trench_width_mm unit_mm width_mm widths_mm work_mm"
    ),
    LengthKind.THICKNESS: (
        "bed_mm capping_mm firm_mm planned_mm sub_base_mm thickness_mm thicknesses_mm weak_mm weaker_mm"
    ),
    LengthKind.JOINT: "difference_mm joint_max_mm joint_min_mm joint_mm",
    LengthKind.ACCURACY: (
        "blocks_mm corner_sd_mm flags_mm flush_most_mm gap_mm greatest_error_mm lip_limit_mm lip_mm "
        "at_once_mm down_mm off_mm proud_mm sd_mm "
        "flat_sd_mm known_sd_mm max_sd_mm misclosure_per_setup_mm sds_mm step_limit_mm tolerance_mm us_limit_mm "
        "limits_mm warp_mm across_long_mm one_sd_mm reading_sd_mm tape_sd_mm"
    ),
    # rain, roughness and constants: no length of the site, a bare number is what it is
    None: "flatness_mm levelness_mm m5_60_mm mm_per_root_km rain_mm roughness_mm z2_m5_mm",
}
_KINDS = {name: kind for kind, names in _OF_KIND.items() for name in names.split()}
_FALLS = {
    "one_in": FallUnit.ONE_IN,
    "cross_one_in": FallUnit.ONE_IN,
    "fall_percent": FallUnit.PERCENT,
    "cross_percent": FallUnit.PERCENT,
    "change_percent": FallUnit.PERCENT,
}
_MAX_CELLS = 5000


def length_kind(quantity: Quantity) -> LengthKind | None:
    """Return what kind of length an input is; none where it is no length that is typed with its unit."""
    numeric = quantity.unit == "mm" and quantity.kind in ("number", "numbers")
    return _KINDS.get(quantity.name, LengthKind.SITE) if numeric else None


def fall_unit(quantity: Quantity) -> FallUnit | None:
    """Return in what an input takes a fall; none where it is no fall."""
    return _FALLS.get(quantity.name) if quantity.kind == "number" else None


def without_kind(quantity: Quantity) -> bool:
    """Return whether an input is a length of which nobody said what kind it is."""
    return quantity.unit == "mm" and quantity.kind in ("number", "numbers") and quantity.name not in _KINDS


def read_input(quantity: Quantity, text: str) -> Value:
    """Return the value of a typed input.

    Args:
        quantity: The input.
        text: As typed; the cells of a row stand between commas.

    Raises:
        SumRefusedError: the text is no number, or may be one in another unit; the sentence names each reading.
    """
    if quantity.kind == "word":
        return text
    cells = tuple(cell.strip() for cell in text.split(",", _MAX_CELLS))
    if quantity.kind == "words":
        return cells
    if quantity.kind == "numbers":
        return tuple(_number(quantity, cell) for cell in cells)
    return _number(quantity, text.strip())


def _number(quantity: Quantity, text: str) -> float:
    kind, unit = length_kind(quantity), fall_unit(quantity)
    if kind is not None:
        typed = length_typed(text, kind)
    elif unit is not None:
        typed = fall_typed(text, unit)
    else:
        return _plain(quantity, text)
    if typed.value is not None:
        return typed.value
    if typed.choices:
        raise SumRefusedError(_unclear(quantity, text, typed))
    return _plain(quantity, text)


def _plain(quantity: Quantity, text: str) -> float:
    try:
        return float(text.removesuffix(quantity.unit) if quantity.unit else text)
    except ValueError:
        message = f"{quantity.name}: {text!r} is not a number; write the reading in figures."
        raise SumRefusedError(message) from None


def _unclear(quantity: Quantity, text: str, typed: Typed) -> str:
    """Say what a number may be, each reading as it is written to be clear."""
    readings = [words for words, _ in typed.choices]
    if len(readings) == 1:
        return f"{quantity.name}: {text} is not usual here; write {readings[0]} where that is what you mean."
    return f"{quantity.name}: {text} may be {' or '.join(readings)}; write it with its unit."
