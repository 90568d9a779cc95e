"""Sentences of the quotation, all in one place: what stands in braces is filled in."""

from __future__ import annotations

from dataclasses import dataclass

from pavewright.writing import Catalogue, Sentence


@dataclass(frozen=True, slots=True)
class QuotationWords(Catalogue):
    """The sentences of the quotation."""

    # titles, heads of tables and labels
    title_in_price: str = "What is in the price"
    at_doors: str = "At the doors"
    step_down: str = "step down"
    title_not_in_price: str = "What is not in the price"
    could_not_see: str = "What we could not see"
    title_built: str = "What is built"
    title_drawing: str = "Drawing with heights"
    title_sections: str = "Sections"
    title_settled: str = "What is settled later"
    title_paid: str = "How it is paid"
    due_when: str = "falls due when"
    by_programme: str = "by the programme"
    held_freed: str = "held, freed"
    to_pay: str = "to pay"
    title_options: str = "Options"
    more_or_less: str = "more or less, with tax"
    goods_to_choose: str = "goods to be chosen"
    for_supplying: str = "for supplying"
    in_price: str = "in the price"
    settled_at: str = "settled at"
    provisional_work: str = "provisional work"
    title_terms: str = "Time and terms"
    title_when: str = "When"
    title_exact: str = "How exact the work is"
    title_warranty: str = "Warranty"
    title_care: str = "Care"
    title_changes: str = "If something changes"
    title_complaints: str = "If you are not happy"
    title_cancel: str = "Your right to cancel"
    amount: str = "amount"
    title_price: str = "Price"
    title_quotation: str = "Quotation"
    title_acceptance: str = "Acceptance"
    customer: str = "Customer"
    for_contractor: str = "For the contractor"
    door: str = "door"
    option: str = "option"
    part: str = "part"
    days: str = "days"
    # the letter
    dear: Sentence = Sentence("Dear {client},")
    dear_all: str = "Good day,"
    opening: Sentence = Sentence(
        "Thank you for asking us to price this work: {title}, {address}. Here is our quotation."
    )
    opening_no_place: Sentence = Sentence("Thank you for asking us to price this work: {title}. Here is our quotation.")
    price: Sentence = Sentence("The price to pay is {price}.")
    price_part: Sentence = Sentence(
        "Of this, {likely} may still change. Under Price you read what for, and how it is settled."
    )
    begins: Sentence = Sentence("We plan to begin on {start} and to end on {finish}. Weather may move these days.")
    options: Sentence = Sentence("You may choose from {many} options. Each is priced as more or less than this price.")
    one_option: str = "You may choose one option. It is priced as more or less than this price."
    read: str = "Please read what is in the price, what is not, and what we could not see. The drawings come last."
    accept: str = (
        "If you agree, sign under Acceptance and send that page back, or accept in writing. Ask us first if anything "
        "is not clear."
    )
    invented: str = "This is an invented example: names and prices are invented."
    # what is built
    drawing: str = "The drawing shows the finished heights. Arrows show which way the rain runs off."
    section: str = "The section shows how high the paving comes at the house, and what we build below it."
    layers_of: Sentence = Sentence("What we build, from the top down: {areas}")
    dpc: str = (
        "The damp-proof course is the layer in the house wall that keeps damp from rising. Paving has to stay below it."
    )
    doors: str = "This is how far you step down from the door to the paving."
    title_cautions: str = "While we work"
    caution_children: str = "Keep children and pets away from the dig, the tools and the stacks."
    caution_mortar: str = "Wet mortar and concrete burn the skin: keep off and do not touch until the date above."
    caution_services: str = "Tell us of every pipe and cable that you know of before the dig begins."
    # money
    options_lead: str = (
        "The price is without any of these. Tick the ones that you want under Acceptance, where you sign."
    )
    no_options: str = "No options are offered with this quotation."
    settled: str = (
        "Some of the work or goods cannot be priced for certain yet. Here stands what is counted for them, and how it "
        "is settled."
    )
    nothing_settled: str = "Nothing in this price is settled later."
    # when the work is done and after
    likely: Sentence = Sentence("Allowing for weather, it ends by {likely} in {percent} of 100 cases.")
    warranty: Sentence = Sentence(
        "If our work proves faulty within {months} months from the day on which it is complete, we put it right free "
        "of charge. Tell us as soon as you see it."
    )
    warranty_none: str = "We give no warranty of our own on this work."
    warranty_open: str = "How long we put faults right free of charge is not stated here. Ask before you agree."
    warranty_law: str = "Whatever stands here, you keep the rights that the law gives you."
    warranty_not: str = "A warranty does not cover damage by others, or by use for which the paving was not built."
    care_walk: Sentence = Sentence("Keep off the new paving until {foot}.")
    care_car: Sentence = Sentence("Do not drive or park on it until {car}.")
    care_no_car: str = "It is not built for cars."
    care_sheet: str = "When the work is done you get a sheet on how to look after it."
    care_salt: str = "Until then use no salt, no acid and no pressure washer on it."
    changes_slip: str = (
        "If anything is to change, you get a slip first. It says what changes and why, how much more or less it costs, "
        "and how many days it takes."
    )
    changes_sign: str = "We do the changed work only when you and we have signed the slip."
    changes_found: str = (
        "If we find something in the ground that nobody could see, we stop there and show you. Where a rate stands in "
        "this quotation, that rate is used."
    )
    changes_danger: str = "What must be made safe at once we make safe, and then we tell you."
    complain_to: Sentence = Sentence("If you are not happy with our work, tell us first: {to}.")
    complain_open: str = "If you are not happy with our work, tell us first, at the address on our letter."
    complain_days: Sentence = Sentence("We answer within {days} days, and say what we will do and when.")
    complain_days_open: str = "How soon we answer is not stated here. Ask before you agree."
    complain_other: str = (
        "If we cannot agree, either of us may ask somebody outside to help: a person we both name, an advice service, "
        "or a court."
    )
    # signing
    accept_this: Sentence = Sentence("I accept this quotation of {on}, revision {revision}.")
    accept_options: str = "I take the options that I ticked below, and no others."
    accept_read: str = "I have read what is in the price, what is not, and what is still open."
    accept_drawings: str = "I have seen the drawings with the heights."
    accept_doors: str = "I have seen how far one steps down at each door."
    accept_cancel: str = "I was given the notice on my right to cancel, and the form for it."
    options_taken: str = "Options that I take:"
    not_to_sign: str = "Do not sign yet: this quotation is not ready to be sent."


SAID = QuotationWords()
"""Every fixed sentence of the quotation."""
CAUTIONS = (SAID.caution_children, SAID.caution_mortar, SAID.caution_services)
"""Usual cautions for a household while the work goes on (common practice)."""
