"""The child that draws documents with typst; started by itself, it imports nothing else of the program but its limits.

Reads ``{"template": …, "fonts": folder, "documents": {name: JSON text}, "dots_per_inch": …}`` and writes ``{"made":
{name: base64 of the PDF}, "pages": {name: [base64 of a PNG, …]}}``, pages where dots are asked for. It makes no file:
what it may read lies in memory and in the folder of the fonts.
"""

from __future__ import annotations

import base64
import json
import os
import re
import sys
from typing import Any, Literal

from pavewright import children

_LACKING = re.compile(r'the text `"(.+?)"` could not be displayed')
_MAX_SIGNS = 300
Standard = Literal["a-3a", "a-3b"]
_STANDARDS: tuple[Standard, Standard] = ("a-3a", "a-3b")
"""Archival with every letter of a drawing readable by a program; where a script does not allow that, archival only."""


def draw(template: bytes, fonts: str, document: str, standard: Standard = _STANDARDS[0]) -> bytes:
    """Return one document as PDF; any warning is an error."""
    import typst  # noqa: PLC0415 - only the child needs it

    source: Any = {"main.typ": template, "document.json": document.encode("utf-8")}
    made, warnings = typst.compile_with_warnings(
        source,
        root=fonts,
        font_paths=[fonts],
        ignore_system_fonts=True,
        pdf_standards=standard,
    )
    if warnings:
        message = "; ".join(warning.message for warning in warnings)
        raise RuntimeError(message)
    return without_suspects(bytes(made))


_MARKED, _SUSPECTS = b"/MarkInfo<</Marked true", b"/Suspects false"


def without_suspects(content: bytes) -> bytes:
    """Return a PDF that leaves out what is false unless it is said: some readers take that entry for an error.

    Blanks stand in its place, so that every other object stays where the document says that it is.
    """
    return content.replace(_MARKED + _SUSPECTS, _MARKED + b" " * len(_SUSPECTS))


def pictures(template: bytes, fonts: str, document: str, dots_per_inch: float) -> list[bytes]:
    """Return each page of a document as PNG; what was laid out for its PDF is not laid out again."""
    import typst  # noqa: PLC0415 - only the child needs it

    source: Any = {"main.typ": template, "document.json": document.encode("utf-8")}
    made = typst.compile(
        source, root=fonts, font_paths=[fonts], ignore_system_fonts=True, format="png", ppi=dots_per_inch
    )
    return [bytes(each) for each in made] if isinstance(made, list) else [bytes(made)]


def draw_what_can_be(template: bytes, fonts: str, document: str) -> tuple[bytes, str]:
    """Return one document as PDF, and the words that were drawn.

    A sign that cannot be drawn becomes a question mark, or it would not be archival.

    Marks that stand on a letter of another script are shaped into clusters that a drawing cannot give back as letters:
    such a document is archival without that promise. Were even that refused, every sign past the Latin ones goes.
    """
    import typst  # noqa: PLC0415 - only the child needs it

    for standard in _STANDARDS:
        text = document
        for _ in range(_MAX_SIGNS):
            try:
                return draw(template, fonts, text, standard), text
            except typst.TypstError as problem:
                lacking = _LACKING.search(str(problem))
                if lacking is None or lacking[1] not in text:
                    break
                text = text.replace(lacking[1], "?")
    plain = _STRANGE.sub("?", document)
    return draw(template, fonts, plain, _STANDARDS[-1]), plain


_STRANGE = re.compile("[^\n -\u017e\u2010-\u2027\u2030-\u205e\u20a0-\u2312\u2500-\u27bf]")


def main() -> None:
    """Take the limits, draw what comes in on the input and write it to the output."""
    children.begin(memory_bytes=int(sys.argv[1]), cpu_s=int(sys.argv[2]))
    os.environ["RUST_BACKTRACE"] = "0"  # where no memory is left, writing one can hang
    order = json.loads(sys.stdin.buffer.read())
    template = order["template"].encode("utf-8")
    made, pages = {}, {}
    for name, text in order["documents"].items():
        content, drawn = draw_what_can_be(template, order["fonts"], text)
        made[name] = _in_letters(content)
        if order["dots_per_inch"]:
            pages[name] = [
                _in_letters(each) for each in pictures(template, order["fonts"], drawn, order["dots_per_inch"])
            ]
    sys.stdout.write(json.dumps({"made": made, "pages": pages}))


def _in_letters(content: bytes) -> str:
    return base64.b64encode(content).decode("ascii")


if __name__ == "__main__":
    main()
