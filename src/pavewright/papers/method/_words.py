"""The words of the method sheet: one catalogue, so that another language is another one of these."""

from __future__ import annotations

from dataclasses import dataclass

from pavewright.earthworks import ServiceState
from pavewright.method import ToolVerdict
from pavewright.writing import Catalogue, Sentence


@dataclass(frozen=True, slots=True)
class MethodWords(Catalogue):
    """Every sentence of the method sheet; what differs from job to job has a named place."""

    title: str = "Method and risks"
    lead: str = (
        "What on this job can hurt people, by its own figures. A reminder and a start for your own assessment: local "
        "codes and licensed practice decide, and nothing here says that work is without risk."
    )
    at_a_glance: str = "At a glance"
    hazard: str = "hazard"
    here: str = "on this job"
    to_ask: str = "to ask first"
    none: str = "–"
    ask: str = "not known: ask"
    ask_short: str = "ask"
    ask_first: str = "Ask before work begins"
    ask_lead: str = "Nobody knows these yet. Work that hangs on one waits until it is answered."
    read_by: str = "Read by"
    signer: str = "Who runs the work"
    crew: str = "Crew"
    minutes: Sentence = Sentence("{low} to {high} min, likely {likely}")

    lifting: str = "Lifting"
    lifting_here: Sentence = Sentence("{one} of one person, {two} of two, {aid} for an aid, {unknown} not weighed")
    rate_day: str = "Day on which most is lifted"
    rate: Sentence = Sentence("{day}: {pieces} pieces, {kg} kg, the heaviest {heaviest} kg; {people} people")
    lifts: str = "Lifts of those pieces that day"
    lifts_of: Sentence = Sentence("{low} to {high}, likely {likely}")
    each_person: str = "Lifts of each person in an hour"
    at_that_rate: str = "Guideline weight for one person at that rate"
    no_rate: str = "How often units are lifted is not known: no days of laying are known."
    lift_caution: str = (
        "Plan the lift and the way first; aids before backs. Keep it close, do not twist, change hands and people; "
        "no lifting down into the bed on bent backs for hours."
    )
    ask_weights: Sentence = Sentence("What {count} things weigh that are lifted here: see Lifting.")
    ask_weight: str = "What one thing weighs that is lifted here: see Lifting."

    dust: str = "Dust of stone and concrete: silica"
    dust_here: Sentence = Sentence("{cuts} cuts, {metres} m of sawing, {low} to {high} min")
    dust_none: str = "No cut is planned: one that comes up is cut by the rules below."
    saw_metres: str = "Sawing, cuts along folds included"
    metres: Sentence = Sentence("{metres} m, {cuts} pieces to cut")
    blade_time: str = "Blade in the stone, whole job"
    busiest: str = "Blade in the stone, busiest day"
    water: str = "Water on the blade, whole job"
    litres: Sentence = Sentence("about {litres} l at {flow} l/min")
    besides: str = "Cuts of kerbs, channels, pipes and steps come on top."
    control: Sentence = Sentence(
        "Fewer cuts first, a splitter before a saw. Outside, water on the blade or extraction at the tool, and a "
        "mask with a "
        "factor of {mask}, fit-tested, besides. Nobody down wind; slurry washed up wet, never swept dry."
    )
    limit: Sentence = Sentence(
        "Limit {limit} mg/m³ in the mean over 8 h; a dry saw has reached {dry} mg/m³. Minutes are no measurement "
        "of the air."
    )
    ask_water: str = "Whether water for the saw can be had on site."

    tools: str = "Vibration and noise"
    tools_here: Sentence = Sentence("{tools}; vibration not known of {unknown}")
    tool_one: str = "1 tool"
    tools_many: Sentence = Sentence("{count} tools")
    tool: str = "tool"
    used: str = "min on its busiest day"
    shakes: str = "m/s²"
    points: str = "points"
    to_action: str = "min to action value"
    to_limit: str = "min to limit"
    stands: str = "vibration"
    loud: str = "dB(A)"
    day_noise: str = "day, dB(A)"
    noise_stands: str = "noise"
    at_most: Sentence = Sentence("at most {minutes}")
    not_listed: Sentence = Sentence("{tool}, none listed")
    tools_note: Sentence = Sentence(
        "Points of a day add up over tools: {action} at the action value of {action_m_s2} m/s², {limit} at the "
        "limit of "
        "{limit_m_s2}, for one person who does it all. At most: the whole time of the work that the tool serves."
    )
    together: Sentence = Sentence("All tools in one pair of hands on one day: {points} points.")
    tools_caution: str = (
        "Share the work and change over before the minutes are up; keep hands warm and blades sharp; ear protection on "
        "before the tool runs, also for those beside it. Tell the neighbours which hours are loud."
    )
    noise_values: Sentence = Sentence(
        "Noise over 8 h: protection offered from {lower} dB(A), worn from {upper}, limit at the ear {limit}."
    )
    ask_vibration: Sentence = Sentence("How much it shakes as it is used, measured or from a report: {tools}.")
    ask_noise: Sentence = Sentence("How loud it is at the ear: {tools}.")
    ask_minutes: Sentence = Sentence("How long it is used in a day: {tools}.")

    services: str = "Buried and overhead services"
    services_here: Sentence = Sentence(
        "{known} known, {near} near the dig: {met} met by it, {unknown} not known whether"
    )
    services_none: str = "None is entered. That does not mean that there is none."
    service: str = "service"
    what_it_is: str = "what runs in it"
    said_deep: str = "said to lie, mm"
    dig_deep: str = "dig there, mm"
    state: str = "how they stand"
    apart: Sentence = Sentence("Known and further than {near} mm from the dig of the areas: {names}.")
    other_digs: str = "Trenches of drains, holes of soakaways and pins are not in this table: look at each by itself."
    by_hand: Sentence = Sentence(
        "Records, then trace, then mark, then dig: by hand within {near} mm, no picks or forks. Depths of "
        "records are often "
        "wrong. A line that is met stops the work until its owner has said how."
    )
    ask_records: str = "Records of every service, and a trace of the ground, before anybody digs."
    ask_depth: Sentence = Sentence("How deep it lies: {names}.")
    ask_overhead: str = "Whether a line or an arch hangs over the way in, and how high: it is not entered."

    dig: str = "Excavation"
    dig_here: Sentence = Sentence("deepest {deepest} mm")
    dig_unknown: str = "depth not known: the ground was not levelled"
    area: str = "area"
    deepest: str = "deepest, mm"
    mean: str = "mean, mm"
    sides: str = "sides"
    deep: str = "over the depth at which somebody who knows looks at them"
    shallow: str = "look at them each day; no depth is proof against a fall of ground"
    pits: Sentence = Sentence("Soakaways go deeper: {pits} mm. Nobody goes in before the sides are held or laid back.")
    walls: Sentence = Sentence("Walls beside which the dig goes deep: {count}. A trial hole at each footing first.")
    dig_caution: str = (
        "Look at the sides before each shift, after rain and after a fall of ground. Barrows, spoil and machines "
        "off the "
        "edge; a barrier where somebody can fall in; never below or into a footing; covered or pumped over night."
    )
    ask_ground: str = "How deep the dig is: level the ground."
    ask_shoring: str = "Who decides how the sides of the deep digs are held or laid back."

    cement: str = "Wet cement"
    cement_here: Sentence = Sentence("{kg} kg of cement and bond coat on the order")
    cement_none: str = "no cement is ordered and no mortar planned"
    cement_caution: Sentence = Sentence(
        "It burns without hurting at first. Waterproof gloves, long sleeves, boots and knee boards; off the skin "
        "at once with "
        "clean water; water for eyes at hand. It sensitises {low} to {high} % of those who work with it. Mix out "
        "of the wind."
    )

    vehicles: str = "Vehicles and machines"
    vehicles_here: Sentence = Sentence("{machines}; {lorries} with a delivery or a load")
    one_day: str = "1 day"
    days: Sentence = Sentence("{count} days")
    no_machine: str = "no machine to sit on is listed"
    car_ready: Sentence = Sentence("Cars stay off until {day}.")
    vehicles_caution: str = (
        "Nobody in the swing or behind a machine; a banksman where it reverses; machines off the edge of the dig "
        "and off "
        "covers. Lorries stand where they block nobody, and set down where the order list shows it."
    )

    public: str = "Public, neighbours and children"
    public_here: Sentence = Sentence("{name} {away} m from the dig")
    public_far: str = "no footway or road is entered near the dig"
    public_unknown: str = "what lies beyond the site is not entered"
    near: Sentence = Sentence("{name}: {away} m from the dig, fence it off ({limit} m by {source}).")
    not_near: Sentence = Sentence("{name}: {away} m from the dig.")
    public_caution: str = (
        "A firm barrier with a way past it, lit at night; no tool, stone or hose over the footway. Doors that "
        "open on the "
        "dig are locked or barred. Holes, mixes and blades are out of reach of children before the crew leaves."
    )
    ask_public: str = "Whether a footway, a road or a shared way runs along the work."
    ask_children: str = "Who lives and plays there: children, pets, people who do not see or walk well."

    trees: str = "Trees and roots"
    trees_here: Sentence = Sentence("{known} entered; {near} with roots in the dig")
    trees_none: str = "none: looked for on the walk round"
    trees_not_asked: str = "none is entered, and whether there is one is not known"
    root: Sentence = Sentence("{name}: the dig comes to {away} m of its stem, its roots reach about {reach} m. {law}")
    protected: str = "It is protected: ask the council before any digging."
    unprotected: str = "Nobody says that it is protected."
    law_unknown: str = "Whether it is protected is not known: ask."
    trees_caution: str = (
        "By hand between roots, none cut that is thick as a thumb without asking; nothing stored over them."
    )
    ask_trees: Sentence = Sentence("Whether it is protected: {names}.")
    ask_any_trees: str = (
        "Whether a tree or a hedge stands near the work, on either side of the boundary, and whether it is protected."
    )

    waste: str = "Waste"
    waste_here: Sentence = Sentence("{loads}; {tonnes} t of spoil")
    waste_unknown: str = "how much leaves is not known"
    loads: Sentence = Sentence("{low} to {high} loads")
    no_loads: str = "how it leaves is not known"
    made_ground: str = (
        "There is made ground: glass, wire, ash or asbestos may lie in it. Stop and ask where it looks odd."
    )
    soil_unknown: str = "What the ground is made of is not known: fill and waste may lie in it."
    waste_caution: str = (
        "A registered carrier, a ticket for every load; slurry and wash water never to a drain or a bed."
    )
    ask_soil: str = "What the ground is made of."
    ask_leaves: str = "How the spoil leaves, and who takes it."

    weather: str = "Weather"
    weather_here: Sentence = Sentence("{start} to {finish}, {tasks} that rain stops")
    weather_caution: Sentence = Sentence(
        "No mortar or concrete below {coldest} °C and falling. Frost, ice and heat stop people too: warm and dry "
        "breaks, "
        "water, shade. Wet clay and slabs are slippery; wind takes dust, sheets and fences."
    )
    task_one: str = "1 task"
    tasks: Sentence = Sentence("{count} tasks")


WORDS = MethodWords()
VERDICTS = {
    ToolVerdict.NOT_KNOWN: "not known: ask",
    ToolVerdict.OVER_LIMIT: "OVER THE LIMIT",
    ToolVerdict.OVER_ACTION: "over an action value",
    ToolVerdict.BELOW_ACTION: "below the action value; still as little as can be",
}
"""How a day with one tool stands."""
NOISE = VERDICTS | {
    ToolVerdict.OVER_LIMIT: "OVER THE LIMIT without hearing protection",
    ToolVerdict.OVER_ACTION: "over an action value: ear protection",
}
"""How a day of noise stands, before hearing protection is counted."""
STATES = {
    ServiceState.MET: "STOP: the dig meets it",
    ServiceState.BELOW_THE_DIG: "below the dig, by the records",
    ServiceState.NOT_KNOWN: "not known: ask",
}
"""How a dig stands to a service."""
