"""The words of sheets for the site: one catalogue for each, so that another language is another one of these."""

from __future__ import annotations

from dataclasses import dataclass

from pavewright.writing import Catalogue, Sentence


@dataclass(frozen=True, slots=True)
class AsLaidWords(Catalogue):
    """The words of readings as laid."""

    as_laid_readings_take: str = "As laid: readings to take"
    read_staff_finished_paving: str = "Read the staff on the finished paving at these places and write the levels down."
    what_readings_cannot_show: str = "What the readings cannot show"
    greatest_departure_from_plane: str = "Greatest departure from a plane"
    level_held: str = "Level held to"
    mm_either_way: Sentence = Sentence("{level_limit} mm either way")
    not_read: str = "not read"
    tolerance: Sentence = Sentence("{verdict}, by the tolerance")
    min_found_below_dpc: str = "min found below DPC"


@dataclass(frozen=True, slots=True)
class SettingOutWords(Catalogue):
    """The words of setting out."""

    every_string_runs_mm: Sentence = Sentence(
        "Every string runs {high} mm over the finished surface and carries its fall."
    )
    pin_driven_outside_dig: str = (
        "A pin is driven outside the dig and stays. A mark is made on the wall, where no pin can be driven. A dip is "
        "a place under a string: measure down to it; no pin stays there."
    )
    tapes_check_before_digging: str = "Tapes to check before digging"
    place_itself: Sentence = Sentence("{no_pin}. The place itself: {from_corner}")
    where_from_base_line: str = "where, from the base line"
    base_line_millimetres_down: Sentence = Sentence("{area}: base line {line}; millimetres down from the string")


@dataclass(frozen=True, slots=True)
class WaterWords(Catalogue):
    """The words of the water."""

    peak_flow_mm_h: Sentence = Sentence("Peak flow at {rain} mm/h, runoff {runoff}: {total} l/s in all.")
    from_others_m: str = "and from others m²"
    what_this_does_not: str = "What this does not show"
    worst_storm_min: str = "worst storm min"
    trial_pit: Sentence = Sentence("Trial pit at {outfall}: {size}{when}")
    storm_before_after_job: str = "A storm, before and after the job"
    where_goes: str = "where it goes"
    before_ground_sheds_part: str = (
        "Before, the ground sheds the part of the rain that its cover does; the rest soaks in. After, all sheds."
    )


@dataclass(frozen=True, slots=True)
class WorkWords(Catalogue):
    """The words of dig and programme."""

    dig_build_up: str = "Dig and build-up"
    loads_expected_tick_each: Sentence = Sentence("Loads, {low} to {high} expected: tick each.")
    ground_was_not_levelled: str = "The ground was not levelled: the dig is not known."
    bearing_ratio_taken: Sentence = Sentence(" Bearing ratio taken: {cbr} %.")
    formation_lies_mm_below: Sentence = Sentence(
        "Formation lies {total} mm below the finished surface everywhere.{ratio}"
    )
    lighter_than_any_with: str = "lighter than any with known passes: choose a heavier one"
    not_entered_passes_are: str = "not entered: passes are not known"
    work_needs: Sentence = Sentence(" (work needs it on {wanted_days})")
    walk_from: str = "Walk on it from"
    drive_from: str = "Drive on it from"
    plant_hire: str = "Plant on hire"
    sums_behind_lengths: str = "Sums behind the lengths"
    black_bar_bold_name: str = (
        "Black bar and bold name: a delay of it delays the end. White bar: it may begin later, as far as the thin "
        "line behind it. Dashed: a wait. Diamond: work stops until somebody has looked. Struck through on grey: done. "
        "Triangle: it is to be there, or leaves, on that day. Ring: the last day on which to order. Line between "
        "ticks: on hire; dotted: still paid. Grey days: nobody works. Working hours are drawn wider than nights."
    )


@dataclass(frozen=True, slots=True)
class WeatherWords(Catalogue):
    """The words of weather and hardening."""

    when_work_ends_with: str = "When the work ends, with its chance"
    how_long_each_bay: str = "How long each bay hardens"
    published_ways_say_how: str = (
        "Published ways to say how quickly cement hardens disagree: the longest decides, and nothing is shorter than "
        "the rule. Temperatures are means as entered: read a thermometer before you load a slab."
    )
    not_all_known_what: Sentence = Sentence(" Not all is known of {months}: what is not known stops no day here.")
    bad_days_as_entered: Sentence = Sentence(
        "Bad days as entered by month, outputs within their ranges, the order of work kept: {draws} draws; "
        "{mean_lost_days} working days lost in the mean.{gap} A chance of 90 is no promise."
    )
    not_all_months_have: str = "; not all months have a temperature"


@dataclass(frozen=True, slots=True)
class SupplyWords(Catalogue):
    """The words of deliveries."""

    orders_deliveries: str = "Orders and deliveries"
    plant_hire: str = "Plant on hire"
    hire_from: str = "on hire from"
    call_off_end: str = "call off at the end of"
    hire_these_dates_with: Sentence = Sentence(
        "{plan}: {days} on hire by these dates, with what is done; the price is as quoted and holds {days_2}."
    )
    more_order_list: Sentence = Sentence("; and {more} more of the order list")
    not_known_measure: str = "is not known: measure it"
    what_has_no_mass: str = "; what has no mass is not counted"
    room_where_lorries_set: Sentence = Sentence(
        "Room where lorries set down: {there}. Order days are counted back in working days from Monday to Friday, "
        "days off of the job left out: ask the supplier for his own."
    )


@dataclass(frozen=True, slots=True)
class SurveyWords(Catalogue):
    """The words of the survey and of levels."""

    survey_points_tapes_levels: str = "Survey: points, tapes and levels"
    fit_times_what_was: Sentence = Sentence("; fit {ratio} times what was expected")
    checked_others: str = "checked by others"
    distributed_over_set_ups: str = "distributed over the set-ups"
    misclosure_not_distributed: str = "misclosure not distributed"
    levels_from_all_readings: str = "levels from all readings together"
    options_fold: Sentence = Sentence("{area}: options to fold it")
    wall_its_damp_proof: Sentence = Sentence(
        "Wall {name}: its damp-proof course was not read; clearance below it is not known."
    )
    mm_all_equal: Sentence = Sentence("{risers} of {riser} mm, all equal")
    rise_ends: str = "Rise at the ends"
    below_dpc_its_start: str = "below DPC at its start"
    its_end: str = "at its end"
    step_down_left_jamb: str = "step down at the left jamb"
    middle: str = "in the middle"
    right_jamb: str = "at the right jamb"
    what_becomes_water: str = "what becomes of water"
    earthwork_prices_job_or: str = (
        "Earthwork at the prices of the job, or invented ones where it gives none; only to order the options."
    )


@dataclass(frozen=True, slots=True)
class TapeWords(Catalogue):
    """The words of tapes."""

    checked_others: str = "checked by others"
    error_lies_one_measure: Sentence = Sentence("An error lies in one of {names}: measure these again.")
    tape_looks_mm_too: Sentence = Sentence("Tape {start}–{end} looks {slip} mm too {way}: measure it again.")
    if_you_take_one: Sentence = Sentence("If you take one more tape: {start}–{end}, about {length}, helps most.")
    fit_times_what_was: Sentence = Sentence("; fit {ratio} times what was expected")
    nothing_checks_more_points: Sentence = Sentence(" Nothing checks {once} more, on points that were read once.")
    least_certain_with_standard: Sentence = Sentence(
        " The least certain is {what}, with a standard deviation of {one} mm."
    )
    levels_adjusted_together: str = "Levels adjusted together"


AS_LAID = AsLaidWords()
"""The words of readings as laid."""
SETTING_OUT = SettingOutWords()
"""The words of setting out."""
WATER = WaterWords()
"""The words of the water."""
WORK = WorkWords()
"""The words of dig and programme."""
WEATHER = WeatherWords()
"""The words of weather and hardening."""
SUPPLY = SupplyWords()
"""The words of deliveries."""
SURVEY = SurveyWords()
"""The words of the survey and of levels."""
TAPES = TapeWords()
"""The words of tapes."""
