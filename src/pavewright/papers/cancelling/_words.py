"""Sentences on cancelling, all in one place: what stands in braces is filled in."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from pavewright.papers._words import day
from pavewright.papers.cancelling._facts import WhyNoNotice
from pavewright.writing import Catalogue, Sentence

if TYPE_CHECKING:
    from collections.abc import Iterator

    from pavewright.papers.cancelling._facts import Cancelling


@dataclass(frozen=True, slots=True)
class CancellingWords(Catalogue):
    """The sentences of the sheets on cancelling, and of the right to cancel."""

    title_document: str = "Right to cancel"
    title_right: str = "Your right to cancel"
    title_until: str = "Until when"
    title_how: str = "How you cancel"
    title_then: str = "What happens then"
    title_form: str = "Form to cancel"
    title_early: str = "Request to begin early"
    to_confirm: str = "To be confirmed"
    head_agreed: str = "agreed on"
    head_last: str = "you may cancel until the end of"
    line_agreed: str = "Agreed on"
    line_last: str = "Last day to cancel"
    send_to: str = "Send to"
    line_work: str = "The work"
    line_name: str = "Name of the customer"
    line_address: str = "Address of the customer"
    line_signature: str = "Signature of the customer (on paper only)"
    line_date: str = "Date"
    the_work: Sentence = Sentence("{title}, job {job}, quotation of {on}")
    place_not_known: str = (
        "Where this is agreed is not recorded. If we agree it at your home or at a distance, you may have a right to "
        "cancel. The notice and the form for it are papers of their own and not part of this one. Ask for them before "
        "you agree."
    )
    at_premises: str = (
        "This is agreed at our own place of business. No notice on cancelling is made for that. Ask an adviser if you "
        "think that you may cancel."
    )
    no_rule: str = (
        "You may have a right to cancel. We have no rule of this place on it, so no notice is made. Ask for it before "
        "you agree."
    )
    say_place: str = "Say where this is agreed: at the customer's home, at a distance or at your premises."
    no_need: str = "It is agreed at your own premises: no notice is made for that."
    ask_adviser: str = "The rulebook of this place has no rule on cancelling: ask an adviser for the notice to use."
    right: Sentence = Sentence(
        "You may cancel within {days} days after the day on which we agree. You need not say why."
    )
    working: str = "Sundays and public holidays do not count."
    holiday: str = "A public holiday in between gives you one day more: it is not counted here."
    goods: Sentence = Sentence(
        "If goods for the work come later, the {days} days count from the day after the last of them came."
    )
    uncalled: Sentence = Sentence("If we called at your home and nobody had asked us to, you have {days} days.")
    known: Sentence = Sentence("We agree this work on {agreed}. The last day on which you may cancel is {last}.")
    taken: Sentence = Sentence(
        "If we agree on {agreed}, the day of this quotation, the last day on which you may cancel is {last}. "
        "If we agree on another day, count from that day, and write both days below."
    )
    by_programme: Sentence = Sentence(
        "By the programme the last goods come on {goods}. If they come later, you have until {days} days after that."
    )
    how: str = (
        "Tell us clearly that you cancel, by letter or e-mail, before the last day has passed. You may use the form on "
        "the next page. You need not."
    )
    keep: str = "It is enough that you send it in time. Keep a copy, and proof of the day on which you sent it."
    money: str = "We then pay back what you have paid us for work that is not done."
    early: str = (
        "We may begin within these days only if you ask us to in writing. If you then cancel, you pay for the work "
        "done up to that day. Once the whole work is done at your wish, the right to cancel may end."
    )
    separate: str = "The notice and the form for it come with this quotation, as a paper of their own."
    confirm: Sentence = Sentence(
        "The words on this page are ours. The words that the law asks for stand in: {law}. The contractor has to "
        "compare them and put them right before this page is used."
    )
    address_open: str = "the address on our letter"
    confirm_place: str = "This reference is from memory and not verified."
    confirm_days: Sentence = Sentence("The number of days is from: {source}.")
    form_lead: str = "Fill this in and send it back only if you want to cancel."
    form_says: str = "I or we cancel the agreement with you for the work named here."
    early_lead: str = "Fill this in only if you want the work to begin before your right to cancel has ended."
    early_asks: Sentence = Sentence(
        "I or we ask you to begin the work on {start}. This is before the last day on which I or we may cancel, which "
        "is {last}."
    )
    early_pays: str = "I or we know: if we cancel after the work has begun, we pay for what is done up to then."
    early_ends: str = "I or we know: once the whole work is done, we may no longer be able to cancel."
    early_not_needed: Sentence = Sentence(
        "By the programme the work begins on {start}, after the last day on which you may cancel. No request to begin "
        "early is needed."
    )


SAID = CancellingWords()
"""Every fixed sentence on cancelling."""
_WHY = {
    WhyNoNotice.PLACE_NOT_KNOWN: SAID.place_not_known,
    WhyNoNotice.AT_PREMISES: SAID.at_premises,
    WhyNoNotice.NO_RULE: SAID.no_rule,
}
_TO_DO = {
    WhyNoNotice.PLACE_NOT_KNOWN: SAID.say_place,
    WhyNoNotice.AT_PREMISES: SAID.no_need,
    WhyNoNotice.NO_RULE: SAID.ask_adviser,
}


def no_notice_words(why: WhyNoNotice) -> str:
    """Return for the contractor why no notice is made, and what to do."""
    return _TO_DO[why]


def right_words(found: Cancelling) -> tuple[str, ...]:
    """Return what a quotation says of the right to cancel."""
    if found.why_not is not None or found.rule is None:
        return (_WHY[found.why_not or WhyNoNotice.NO_RULE],)
    return (*rule_words(found), SAID.separate)


def rule_words(found: Cancelling) -> tuple[str, ...]:
    """Return how long the customer may cancel, without dates; nothing where there is no rule."""
    return tuple(_rule(found))


def _rule(found: Cancelling) -> Iterator[str]:
    rule = found.rule
    if rule is None:
        return
    days = f"{rule.days.value:g}"
    yield SAID.right(days=days)
    if rule.working_days_only:
        yield SAID.working
    if rule.from_last_goods:
        yield SAID.goods(days=days)
    if rule.uncalled_days is not None:
        yield SAID.uncalled(days=f"{rule.uncalled_days.value:g}")


def date_words(found: Cancelling) -> tuple[str, ...]:
    """Return until when the customer may cancel, with its days; nothing where there is no rule."""
    last = found.last_day(found.agreed_on)
    if last is None or found.rule is None:
        return ()
    said = (SAID.known if found.agreed_is_known else SAID.taken)(agreed=day(found.agreed_on), last=day(last))
    if found.rule.working_days_only:
        return (said, SAID.holiday)
    if not found.rule.from_last_goods or found.last_goods_on is None:
        return (said,)
    more = SAID.by_programme(goods=day(found.last_goods_on), days=f"{found.rule.days.value:g}")
    return (said, more)
