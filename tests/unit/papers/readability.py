"""How hard a text is to read: the Automated Readability Index.

ARI = 4.71 · (letters and digits / words) + 0.5 · (words / sentences) − 21.43, about the school year (United States) that
reads it with ease. Source: E. A. Smith and R. J. Senter, Automated Readability Index, AMRL-TR-66-220, Aerospace Medical
Research Laboratories, 1967; the formula read as quoted in the manual of an open library of readability measures. It
counts letters, not syllables, so that no guess of a program stands in it.
"""

import re


def sentences_of(text: str) -> list[str]:
    return [each for each in re.split(r"(?<=[.!?:])\s+", text) if re.search(r"\w", each)]


def words_of(text: str) -> list[str]:
    return re.findall(r"[^\W_]+(?:[’'.,-][^\W_]+)*", text)


def readability(text: str) -> float:
    words = words_of(text)
    signs = sum(len(re.sub(r"\W", "", word)) for word in words)
    return 4.71 * signs / len(words) + 0.5 * len(words) / len(sentences_of(text)) - 21.43
