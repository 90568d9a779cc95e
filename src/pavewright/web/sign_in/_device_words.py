"""What a device is called, by what its browser says of itself: enough to know one's own again."""

from __future__ import annotations

_BROWSERS = (("Edg", "Edge"), ("OPR", "Opera"), ("Firefox", "Firefox"), ("Chrom", "Chrome"), ("Safari", "Safari"))
_MACHINES = (
    ("Android", "Android"),
    ("iPhone", "iPhone"),
    ("iPad", "iPad"),
    ("Windows", "Windows"),
    ("Mac OS", "Mac"),
    ("CrOS", "Chromebook"),
    ("Linux", "Linux"),
)


def device_words(said: str) -> str:
    """Return browser and machine in a few words.

    >>> device_words("Mozilla/5.0 (Linux; Android 14) AppleWebKit/537.36 Chrome/130.0 Mobile Safari/537.36")
    'Chrome on Android'
    >>> device_words("")
    'Unknown device'
    """
    browser = next((word for sign, word in _BROWSERS if sign in said), "")
    machine = next((word for sign, word in _MACHINES if sign in said), "")
    return " on ".join(part for part in (browser, machine) if part) or "Unknown device"
