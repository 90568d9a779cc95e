"""What is carried along as one file is what its note says."""

from __future__ import annotations

import hashlib
import re
from pathlib import Path

VENDOR = Path(__file__).parents[2] / "src" / "pavewright" / "web" / "static" / "vendor"


def test_the_file_of_the_solid_view_is_the_one_of_its_note():
    note = (VENDOR / "README.md").read_text("utf-8")
    content = (VENDOR / "three-view.js").read_bytes()
    assert re.search(r"sha256: `([0-9a-f]{64})`", note).group(1) == hashlib.sha256(content).hexdigest()
    assert b"@license" in content[:200]
    assert "MIT" in note and "Permission is hereby granted" in note
    exported = content.decode("utf-8").rsplit("export{", 1)[1]
    for name in re.search(r"exported: (.*?)\n- ", note, re.DOTALL).group(1).replace("\n", " ").split(","):
        assert f" as {name.strip()}" in exported


def test_it_makes_no_code_out_of_text():
    text = (VENDOR / "three-view.js").read_text("utf-8")
    assert not re.search(r"\beval\(|new Function\(", text)
