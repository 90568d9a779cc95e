"""The sentences of the findings on cost, in one place: each takes facts and gives what is said, with its options."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.findings import worded
from pavewright.job import Skill

if TYPE_CHECKING:
    from collections.abc import Sequence

    from pavewright.findings import Option
    from pavewright.quantities import Gap
    from pavewright.rules import Figure

Said = tuple[str, tuple["Option", ...]]
"""What is said, and what can be done."""


def unpriced(items: Sequence[str]) -> Said:
    """Say which items have no price."""
    have = "items have" if len(items) > 1 else "item has"
    words = f"{len(items)} {have} no price and count as zero: {'; '.join(items)}."
    return words, worded(("Enter a price for each.",))


def labour_without(hours: float, skills: Sequence[Skill]) -> str:
    """Say which work is not in the price, and whose hour has none. [h]."""
    who = " and ".join(_SKILLED[skill] for skill in skills)
    return f"Labour: {hours:.0f} hours, an hour {f'of {who} ' if who else ''}has no price"


def labour_missing(gaps: Sequence[Gap]) -> Said:
    """Say that the price is without labour: it is not one to send."""
    named = "; ".join(gap.words for gap in gaps)
    words = f"Work is done that is not in the price, which is not one to send. {named}."
    return words, worded(("Enter what an hour costs: one price for all, or one for each skill.",))


_SKILLED = {
    Skill.LAYER: "a layer",
    Skill.GROUNDWORKER: "a groundworker",
    Skill.LABOURER: "a labourer",
    Skill.DRIVER: "a driver",
    Skill.DRAINAGE: "a drain layer",
    Skill.ANY: "anybody",
}


def mixed_by_hand(mixed_m3: float) -> Said:
    """Say that mortar and concrete are mixed without a mixer. [m³]."""
    words = (
        f"{mixed_m3:.2f} m³ of mortar and concrete are mixed by hand: no mixer is on hire and "
        "the crew has none of its own. The base is priced at the output of hand mixing; outputs of edges, beds and "
        "joints do not say how their mortar is mixed."
    )
    return words, worded(("Hire a mixer: list it under rates.plant.", "Say that the crew has one: crew.own_mixer."))


def hire_too_short(name: str, days: float, wanted_days: int, held_days: int) -> Said:
    """Say that a machine is on hire for fewer days than the programme needs or keeps it. [days]."""
    kept = f" and keeps it on site for {held_days}" if held_days > wanted_days else ""
    words = f"{name} is hired for {days:g} days; the programme needs it on {wanted_days}{kept}."
    ways = ("Hire it for longer.", "Leave days out: the programme then gives them.")
    return words, worded((*ways, "Send it back between, and pay for the second delivery.") if kept else ways)


def hire_not_needed(name: str) -> Said:
    """Say that no work needs a machine that is on hire."""
    words = f"{name} is on hire and no work of the programme needs it: no day of it is in the price."
    return words, worded(("Enter its days.", "Leave it out."))


def digger_not_used() -> Said:
    """Say that a digger is on hire and the dig is priced by hand."""
    words = "An excavator is on hire and the dig is priced by hand: both are in the price."
    return words, worded(("Say that a machine digs: crew.machine_dig.", "Leave the excavator out."))


def carry_unknown(tonnes: float) -> Said:
    """Ask how far it is from the lorry to the work. [t]."""
    words = (
        f"How far is it from the lorry to the work? {tonnes:.1f} t come in that way and the spoil goes out, and "
        f"nobody has said: carrying is not in the price."
    )
    way = "Pace the way from where the lorry sets down to the middle of the work, and enter it; zero if it is there."
    return words, worded((way,))


def dumper_way_unknown() -> Said:
    """Say that nobody knows whether a dumper fits the way in."""
    words = "A dumper is entered and nobody has measured the narrowest place on the way in: barrows are counted."
    return words, worded(("Measure the narrowest place and enter it.",))


def dumper_does_not_fit(width_mm: float, wide: Figure) -> Said:
    """Say that the way in is too narrow for a dumper. [mm]."""
    words = (
        f"A dumper is entered and the way in is {width_mm:.0f} mm wide at its narrowest; {wide.label}: {wide.value:g} "
        f"mm. Barrows are counted, and the hire as well."
    )
    return words, worded(("Take the dumper off.", "Hire a narrower powered barrow, and ask how wide it is."))


def percents_not_known(names: Sequence[str]) -> str:
    """Say that overhead, margin or tax is not in the price."""
    *first, last = names
    named = f"{', '.join(first)} and {last}" if first else last
    return (
        f"Nobody has said what {named} {'are' if first else 'is'}: none of it is in the price, which is not one to "
        f"send. Enter it, zero where there is none."
    )


def reverse_charge(name: str, holds: str) -> Said:
    """Say that a price is without its tax, and for whom that holds."""
    without = f"The price is without {name}, which the customer accounts for"
    said = f"{without}: {holds}. Where it does not hold the firm owes it."
    return said, worded(("Ask the tax office or an adviser whether it holds for this customer.", "Charge the tax."))


def tax_to_ask(name: str, called: str) -> Said:
    """Say that a low rate is charged, which holds for some work only."""
    said = f"{name} is charged on part of the price at {called}: where that does not hold the firm owes the difference."
    return said, worded(("Ask the tax office or an adviser whether it holds for this work.",))


_NAMED = 6
"""So many lines are named; the rest are counted."""


def _some(names: Sequence[str]) -> str:
    more = len(names) - _NAMED
    return "; ".join(names[:_NAMED]) + (f"; and {more} more" if more > 0 else "")


def stale_prices(names: Sequence[str], age_days: float, limit_days: float) -> Said:
    """Say how many lines hang on prices that are too old. [days]."""
    hang = f"{len(names)} lines of this price hang" if len(names) > 1 else "1 line of this price hangs"
    words = f"{hang} on prices older than {limit_days:.0f} days, the oldest of {age_days:.0f} days: {_some(names)}."
    return words, worded(("Ask for these prices again, and enter each with its day.",))


def undated_prices(names: Sequence[str]) -> Said:
    """Say how many lines hang on prices of which nobody knows the day."""
    hang = f"{len(names)} lines of this price hang" if len(names) > 1 else "1 line of this price hangs"
    words = f"{hang} on prices without a date, so that nobody knows how old they are: {_some(names)}."
    return words, worded(("Enter the day on which each of these prices was given.",))
