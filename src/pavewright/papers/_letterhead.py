"""The firm on the customer's papers: its letterhead, and its own words beside those that follow from the job."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from pavewright.firm import TextKey
from pavewright.papers._blocks import SheetOfPaper, heading, paragraph

if TYPE_CHECKING:
    from pavewright.firm import FirmBook

_HEADINGS = {
    TextKey.OPENING: "",
    TextKey.VALIDITY: "How long this price holds",
    TextKey.EXCLUSIONS: "Not included",
    TextKey.PAYMENT: "Payment",
    TextKey.GUARANTEE: "Guarantee",
    TextKey.CARE: "Care",
    TextKey.CLOSING: "",
}
"""What stands over each text, in the order in which they stand."""


def letterhead(firm: FirmBook | None) -> dict[str, Any] | None:
    """Return what stands at the head of the first sheet; None where nothing of the firm is known."""
    if firm is None or not (firm.firm.name or firm.firm.lines or firm.firm.logo):
        return None
    logo = firm.firm.logo
    picture = ""
    if logo is not None:
        # a picture of points inside a drawing: words alone go to the program that sets the page
        inside = f"data:image/{logo.kind.value};base64,{logo.base64}"
        picture = (
            '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" '
            f'width="60mm" height="22mm" viewBox="0 0 60 22"><image width="60" height="22" '
            f'preserveAspectRatio="xMinYMin meet" xlink:href="{inside}"/></svg>'
        )
    number = f"Tax number {firm.firm.tax_number}" if firm.firm.tax_number else ""
    lines = [*firm.firm.lines, *([number] if number else [])]
    return {"name": firm.firm.name, "lines": lines, "logo": picture}


def own_words(firm: FirmBook | None) -> frozenset[str]:
    """Return the paragraphs of the firm's own words: nobody puts them in other words."""
    return frozenset(part for each in (() if firm is None else firm.texts) for part in each.words.split("\n\n"))


def with_own_words(sheets: list[SheetOfPaper], firm: FirmBook | None) -> list[SheetOfPaper]:
    """Return the customer's sheets, and after the price a sheet of the firm's own words where it has some."""
    texts = {} if firm is None else {each.key: each.words for each in firm.texts if each.words.strip()}
    if not texts:
        return sheets
    own = SheetOfPaper("Our terms", measured=False, mark=sheets[0].mark)
    for key, over in _HEADINGS.items():
        if key in texts:
            own.add(*([heading(over)] if over else []))
            own.add(*(paragraph(part) for part in texts[key].split("\n\n") if part.strip()))
    return [sheets[0], own, *sheets[1:]]
