"""The words of sheets for the bench and the saw, and of the front of the pack."""

from __future__ import annotations

from dataclasses import dataclass

from pavewright.writing import Catalogue, Sentence


@dataclass(frozen=True, slots=True)
class DryLayWords(Catalogue):
    """The words of dry laying and templates."""

    ten_units_each_size: str = (
        "Ten units of each size from several packs measured: length, width, thickness; mean against the work size."
    )
    outline_taped_again_as: str = (
        "Outline taped again as it stands, diagonals as on the sheet of setting out; cuts follow what is there."
    )
    string_along_first_course: str = "String along the first course at the start shown on the laying plan."
    first_course_laid_dry: str = "First course laid dry, joints in, every mark read from one tape held at the start."
    course_laid_dry_other: str = (
        "A course laid dry the other way, square to the first by the diagonal of a whole number of units."
    )
    last_unit_each_as: str = "Last unit of each: as on the laying plan, no sliver."
    joints_doors_covers_gullies: str = (
        "Joints at doors, covers, gullies and steps fall where the laying plan shows them."
    )
    units_from_several_packs: str = "Units from several packs side by side: shade and texture blend."
    cut_list_checked_against: str = (
        "Cut list checked against the real gaps before the first cut; templates tried on board first."
    )
    first_course_dry_lay: str = "First course and dry lay"
    first_course_from_corner: Sentence = Sentence("{area}: first course from the {corner} corner, joint {joint} mm")
    checks_common_practice: str = "Checks: common practice."
    millimetres_from_beginning_first: str = "Millimetres from the beginning of the first piece, joints in"
    every_pieces_last: Sentence = Sentence("; every {every} of {marks} pieces and the last")
    mm_thick_mm_either: Sentence = Sentence(
        "{name}: {thickness} mm thick, {value} mm either way in its class ({title}, {place} – {status}): the bed "
        "takes it."
    )
    joint_that_absorbs: str = "joint that absorbs it"
    spread_standard_deviation_one: str = (
        "Spread: standard deviation of one unit. Growth: of the longest run with the joint of the plan, give or take "
        "twice the standard error of the mean. With the joint that absorbs it the last mark stays."
    )
    seen_from_above_length: str = (
        "Seen from above, the length of the unit across the page; a bow of less than a millimetre is cut straight. "
        "Dashed: the box of the cut list. Offsets are counted from its lower edge, or from its left edge where they "
        "lie across the page; places and corners from its lower left corner: along, across."
    )
    templates_skew_cuts: str = "Templates of skew cuts"
    corners_each_piece_its: str = (
        "Corners of each piece in its box, along and across from the lower left corner, seen from above."
    )


@dataclass(frozen=True, slots=True)
class LayingWords(Catalogue):
    """The words of laying and cuts."""

    joint_saw_cut: str = "Joint and saw cut"
    too_small_number_even: Sentence = Sentence(
        "Too small for a number even here: {named}. Find them by course and place in the cut list."
    )
    m_along_folds: Sentence = Sentence(", {saw} m of it along folds")
    m_time_counted_piece: Sentence = Sentence(
        "{saw_with_folds} m{along}; time is counted by the piece, not by the metre: {cuts} to cut, {each} h each"
    )
    with_offcuts_used_again: Sentence = Sentence(
        "{units_with_offcuts} with offcuts used again, {units_each_cut_new} without"
    )
    all_them_be_sawn: Sentence = Sentence("{units_with_offcuts}, all of them to be sawn for other units")
    pieces_stone_saw_bought: Sentence = Sentence("{taken} of the {sawn} pieces of stone to saw: bought already")
    left_over_worth_keeping: str = "Left over, worth keeping"
    cut_along_folds_too: str = "Cut along folds too"
    m_both_parts_laid: Sentence = Sentence("{saw} m, both parts laid: pieces {named}")
    part_too_narrow_be: Sentence = Sentence(
        "a part too narrow to be laid stays on the larger one, not cut off: pieces {named}"
    )
    longest_straight_joint: str = "Longest straight joint"
    beside_one_their_size: str = "Beside one of their size"
    units: Sentence = Sentence("{what} % of the units")
    its_own_outline: str = "to its own outline"
    straight_cuts_order_across: str = (
        "Straight cuts in order; across at: from the unit's left end, along at: from its near side."
    )
    cuts_nearer_face_blade: str = "cuts, nearer face of the blade"
    then_stopped_curved_or: Sentence = Sentence(
        "Then stopped, curved or skew cuts inside their boxes: pieces {stopped}."
    )
    left_over_from: Sentence = Sentence("left over from {left_over_of}")


@dataclass(frozen=True, slots=True)
class TrueSizeWords(Catalogue):
    """The words of templates at true size."""

    print_never_fitted_page: str = (
        "Print at 100 %, never fitted to the page, and measure the line at the foot of the first sheet before the rest."
    )
    stick_sheets_together_cross: str = "Stick sheets together cross on cross; cut along the thick line."
    hold_template_gap_before: str = (
        "Hold the template in the gap before the unit is marked: what is there overrules what was drawn."
    )
    joints_are_already_taken: str = "Joints are already taken off: the template is the piece itself."
    wet_cutting_or_extraction: str = (
        "Wet cutting or extraction, a mask that fits, eyes, ears and gloves: cutting frees silica dust."
    )
    curved_sides_only_pieces: str = (
        "Curved sides only. Pieces with straight cuts and notches stand with their sizes in the job pack."
    )
    templates_true_size: str = "Templates at true size"


@dataclass(frozen=True, slots=True)
class FrontWords(Catalogue):
    """The words of cover, findings and cautions."""

    more_sheet_findings: Sentence = Sentence("{what} more on the sheet Findings.")
    job_figures: str = "The job in figures"
    this_pack: str = "In this pack"
    beside_this_pack: str = "Beside this pack: "
    assumed_because_nobody_could: str = "Assumed, because nobody could see it"
    local_codes_licensed_practice: str = "Local codes and licensed practice take precedence over these sheets."
    stop_before_anybody_digs: Sentence = Sentence("STOP: {of_work} before anybody digs. Read them first.")
    no_finding_stops_work: str = "No finding stops the work. Read the checks and the cautions before it begins."
    stop_before_price_sent: Sentence = Sentence("STOP: {of_money} before a price is sent. It stops no work.")
    finding_has_be_settled: str = "1 finding has to be settled"
    findings_have_be_settled: Sentence = Sentence("{count} findings have to be settled")
    one_area_was_not: str = " One area was not read."
    areas_were_not_read: Sentence = Sentence(" {unread} areas were not read.")
    as_laid_read_see: Sentence = Sentence("As laid, read {date}: {verdict}.{areas} See the sheet As laid.")
    check_failed: str = "the check FAILED"
    check_inconclusive: str = "the check is inconclusive"
    check_passed: str = "the check passed"
    m_ground: Sentence = Sentence("{cut} m³ in the ground; {away}")
    not_known_there_are: str = "not known: there are no spot levels of the ground"
    walk_from: str = "Walk on it from"
    drive_from: str = "Drive on it from"
    nothing_was_noticed: str = "Nothing was noticed."
    cautions_read_before_work: str = "Cautions: read before work"
    these_are_reminders_not: str = (
        "These are reminders, not a method statement. Local codes and licensed practice take precedence."
    )
    wet_cement_burns_without: str = (
        "Wet cement burns without hurting at first. Waterproof gloves, long sleeves, knee boards; wash off at once; "
        "clean water for eyes at hand. Do not kneel in mortar."
    )
    excavation_vehicles_vibration: str = "Excavation, vehicles and vibration"
    no_depth_safe_itself: str = (
        "No depth is safe by itself: look at the sides each day, keep barrows and machines off the edge, never dig "
        "below or into a footing. Keep people out of the swing of a machine. Plates and saws shake: share the work "
        "and rest."
    )
    water_house: str = "Water and the house"
    paving_too_high_wall: str = (
        "Paving too high at a wall or falling to it wets the house. Keep air bricks clear; cover open edges against "
        "rain into the dig overnight."
    )
    vehicles_keep_cars_off: str = "Vehicles: keep cars off until the date on the programme."
    known_here_service_that: Sentence = Sentence(
        "Known here: {services}. A service that is not listed may still be there. Get the records, trace with a "
        "locator, mark, then dig; by hand within {value} mm. No picks or forks."
    )
    stone_concrete_dust: str = "Stone and concrete dust"
    this_job_has_pieces: Sentence = Sentence(
        "This job has {cuts} pieces to cut and about {saw} m of sawing, cuts along folds included. Cut outside, water "
        "on the blade ({saw_water_l_per_min} l/min or more), mask with a factor of {mask_factor}, fit-tested; eyes "
        "and ears covered; nobody down wind. Limit {silica_limit_mg_per_m3} mg/m³ over a day; a dry saw has reached "
        "{value}."
    )
    one_person_close_body: str = "one person, close to the body"
    two_people_or_lifting: str = "two people or a lifting aid"
    use_lifter_or_vacuum: Sentence = Sentence("{limit}. Use a lifter or a vacuum aid where you can.")
    where_figures_come_from: str = "Where the figures come from"
    rulebook_edition_figures_from: Sentence = Sentence(
        "Rulebook: {rulebook} (edition {edition} of {isoformat}). Figures from memory or common practice say so: "
        "check them before relying on them."
    )


@dataclass(frozen=True, slots=True)
class DimensionWords(Catalogue):
    """The words of the dimension book."""

    what_where: str = "what and where"
    what_where_2: str = "What and where"
    unit_that: str = "Unit of that"
    length_ft: str = "Length, ft in"
    width_ft: str = "Width, ft in"
    depth_ft: str = "Depth, ft in"
    times_length_width_depth: str = (
        "Times × length × width × depth, or an area or a volume by its drawing, times what one of it takes. "
        "Deductions are negative. Nothing is added for waste here: the lines add up to the net amount."
    )
    section_through_steps: str = "Section through steps"


DRY_LAY = DryLayWords()
"""The words of dry laying and templates."""
LAYING = LayingWords()
"""The words of laying and cuts."""
TRUE_SIZE = TrueSizeWords()
"""The words of templates at true size."""
FRONT = FrontWords()
"""The words of cover, findings and cautions."""
DIMENSIONS = DimensionWords()
"""The words of the dimension book."""
