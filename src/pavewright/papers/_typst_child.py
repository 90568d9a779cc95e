"""The child that draws documents with typst; started by itself, it imports nothing else of the program but its limits.

Reads ``{"template": …, "fonts": folder, "documents": {name: JSON text}, "attached": {name: base64}, "dots_per_inch":
…}``, the attached files by the names that the documents give them, and writes ``{"made":
{name: base64 of the PDF}, "pages": {name: [base64 of a PNG, …]}}``, pages where dots are asked for. It makes no file:
what it may read lies in memory and in the folder of the fonts.
"""

from __future__ import annotations

import base64
import json
import os
import re
import sys
from types import MappingProxyType
from typing import TYPE_CHECKING, Any, Literal

from pavewright import children

if TYPE_CHECKING:
    from collections.abc import Mapping

_LACKING = re.compile(r'the text `"(.+?)"` could not be displayed')
_MAX_SIGNS = 300
Standard = Literal["a-3a", "a-3b"]
_STANDARDS: tuple[Standard, Standard] = ("a-3a", "a-3b")
"""Archival with every letter of a drawing readable by a program; where a script does not allow that, archival only."""


def draw(
    template: bytes,
    fonts: str,
    document: str,
    standard: Standard = _STANDARDS[0],
    attached: Mapping[str, bytes] = MappingProxyType({}),
) -> bytes:
    """Return one document as PDF, with the files that it attaches; any warning is an error."""
    import typst  # noqa: PLC0415 - only the child needs it

    source: Any = {**attached, "main.typ": template, "document.json": document.encode("utf-8")}
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


def draw_what_can_be(
    template: bytes, fonts: str, document: str, attached: Mapping[str, bytes] = MappingProxyType({})
) -> tuple[bytes, str]:
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
                return draw(template, fonts, text, standard, attached), text
            except typst.TypstError as problem:
                lacking = _LACKING.search(str(problem))
                if lacking is None or lacking[1] not in text:
                    break
                text = text.replace(lacking[1], "?")
    plain = _STRANGE.sub("?", document)
    return draw(template, fonts, plain, _STANDARDS[-1], attached), plain


_STRANGE = re.compile("[^\n -\u017e\u2010-\u2027\u2030-\u205e\u20a0-\u2312\u2500-\u27bf]")


def main() -> None:
    """Take the limits, draw what comes in on the input and write it to the output."""
    children.begin(memory_bytes=int(sys.argv[1]), cpu_s=int(sys.argv[2]))
    os.environ["RUST_BACKTRACE"] = "0"  # where no memory is left, writing one can hang
    order = json.loads(sys.stdin.buffer.read())
    template = order["template"].encode("utf-8")
    attached = {name: _as_text(base64.b64decode(text)) for name, text in order.get("attached", {}).items()}
    made, pages = {}, {}
    for name, text in order["documents"].items():
        content, drawn = draw_what_can_be(template, order["fonts"], text, attached)
        made[name] = _in_letters(content)
        if order["dots_per_inch"]:
            pages[name] = [
                _in_letters(each) for each in pictures(template, order["fonts"], drawn, order["dots_per_inch"])
            ]
    sys.stdout.write(json.dumps({"made": made, "pages": pages}))


def _as_text(content: bytes) -> bytes:
    """Return bytes that are text as they are, others as a list of numbers: typst takes files of text alone."""
    try:
        content.decode("utf-8")
    except UnicodeDecodeError:
        return json.dumps(list(content)).encode("ascii")
    return content


def _in_letters(content: bytes) -> str:
    return base64.b64encode(content).decode("ascii")


if __name__ == "__main__":
    main()
