"""The second, quiet colour of the papers: a firm's own, made as dark as lines and words on white paper need it."""

from __future__ import annotations

CONTRAST = 4.5
"""Contrast with white that words of the usual size need (WCAG 2.1, success criterion 1.4.3): printed in black and white
it is a dark grey."""
_DARKER = 0.96
_LINEAR_BELOW = 0.04045


def contrast_with_white(colour: str) -> float:
    """Return the contrast of a colour with white, from 1 to 21 (WCAG 2.1, relative luminance).

    >>> contrast_with_white("#000000"), contrast_with_white("#ffffff")
    (21.0, 1.0)
    """
    return 1.05 / (_luminance(_channels(colour)) + 0.05)


def printed_accent(colour: str) -> str:
    """Return a colour as it is printed: itself where it is dark enough on white, else as much darker as that needs.

    >>> printed_accent("#123456"), printed_accent("#ffee00")
    ('#123456', '#7f7600')
    """
    channels = _channels(colour)
    while 1.05 / (_luminance(channels) + 0.05) < CONTRAST:
        red, green, blue = (int(_DARKER * each) for each in channels)
        channels = red, green, blue
    return "#" + "".join(f"{each:02x}" for each in channels)


def _channels(colour: str) -> tuple[int, int, int]:
    red, green, blue = (int(colour[place : place + 2], 16) for place in (1, 3, 5))
    return red, green, blue


def _luminance(channels: tuple[int, int, int]) -> float:
    def linear(channel: int) -> float:
        share = channel / 255.0
        return share / 12.92 if share <= _LINEAR_BELOW else ((share + 0.055) / 1.055) ** 2.4

    red, green, blue = (linear(each) for each in channels)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue
