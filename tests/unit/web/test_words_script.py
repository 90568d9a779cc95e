"""The words of the screens: a text is cut between signs, never inside one."""

from __future__ import annotations

import json
import re
import shutil
import subprocess
from pathlib import Path

import pytest

WORDS = Path(__file__).parents[3] / "src" / "pavewright" / "web" / "static" / "lib" / "words.js"


@pytest.mark.skipif(shutil.which("node") is None, reason="no node")
def test_a_text_is_cut_between_signs(tmp_path):
    texts = [
        "Corner by gate",
        "Corner gate \U0001f600\U0001f600",
        "12345678901\U0001f600",
        "e\u0301" * 9,
        "\U0001f468\u200d\U0001f469\u200d\U0001f467 gate",
        "short",
    ]
    script = tmp_path / "run.mjs"
    script.write_text(
        f"import {{ cut }} from {json.dumps(WORDS.as_uri())}; console.log(JSON.stringify({json.dumps(texts)}.map((one) => cut(one, 12))));",
        "utf-8",
    )
    done = subprocess.run([shutil.which("node"), str(script)], capture_output=True, check=True)
    assert json.loads(done.stdout) == [
        "Corner by ga",
        "Corner gate ",
        "12345678901",
        "e\u0301" * 6,
        "\U0001f468\u200d\U0001f469\u200d\U0001f467 gat",
        "short",
    ]


def test_no_script_has_an_import_inside_a_comment():
    for script in WORDS.parents[1].rglob("*.js"):
        if "vendor" not in script.parts:
            text = script.read_text("utf-8")
            code = re.sub(r"/\*.*?\*/", "", text, flags=re.DOTALL)
            pattern = re.compile(r"^import .*", re.MULTILINE)
            assert pattern.findall(code) == pattern.findall(text), script.name
