"""The firm on the customer's papers: its letterhead, and its own words beside those that follow from the job."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from pavewright.papers.look import printed_accent

if TYPE_CHECKING:
    from pavewright.firm import FirmBook


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


def accent_of(firm: FirmBook | None) -> str:
    """Return the colour of the firm as it is printed; empty for black."""
    return "" if firm is None or firm.firm.accent is None else printed_accent(firm.firm.accent)


def own_words(firm: FirmBook | None) -> frozenset[str]:
    """Return the paragraphs of the firm's own words: nobody puts them in other words."""
    return frozenset(part for each in (() if firm is None else firm.texts) for part in each.words.split("\n\n"))
