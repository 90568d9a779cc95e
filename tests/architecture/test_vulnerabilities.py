"""Locked versions are held against entries of known vulnerabilities; all of them here are invented."""

from __future__ import annotations

import importlib.util
import json
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]


@pytest.fixture(scope="module")
def tool():
    spec = importlib.util.spec_from_file_location("check_vulnerabilities", ROOT / "tools" / "check_vulnerabilities.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


@pytest.fixture
def lock(tmp_path):
    path = tmp_path / "requirements.lock"
    path.write_text("pave-stone==1.5.0 \\\n    --hash=sha256:00\nsand[wet]==2.0rc1\nkerb==3.1\n", "utf-8")
    return path


def entry(number, name, *events, **more):
    ranges = [{"type": "ECOSYSTEM", "events": list(events)}] if events else []
    package = {"ecosystem": "PyPI", "name": name}
    return {
        "id": f"INVENTED-{number}",
        "summary": "invented",
        "affected": [{"package": package, "ranges": ranges} | more],
    }


def ran(tool, capsys, tmp_path, lock, content):
    file = tmp_path / "known.json"
    file.write_text(json.dumps(content), "utf-8")
    code = tool.main([str(file), "--lock", str(lock)])
    return code, capsys.readouterr().out


@pytest.mark.parametrize(
    ("events", "hit"),
    [
        (({"introduced": "0"}, {"fixed": "1.5.0"}), False),
        (({"introduced": "0"}, {"fixed": "1.5.1"}), True),
        (({"introduced": "1.5"},), True),
        (({"introduced": "1.5.0.post1"},), False),
        (({"introduced": "1.0"}, {"last_affected": "1.5"}), True),
        (({"introduced": "1.0"}, {"last_affected": "1.4.9"}), False),
        (({"fixed": "1.2"}, {"introduced": "0"}, {"introduced": "1.4"}, {"fixed": "1.6"}), True),
        (({"introduced": "0"}, {"fixed": "1.2"}, {"introduced": "1.6"}), False),
        (({"introduced": "1.10"},), False),
        (({"introduced": "no version"},), True),
    ],
)
def test_a_range_hits_the_versions_that_it_means(tool, capsys, tmp_path, lock, events, hit):
    code, told = ran(tool, capsys, tmp_path, lock, entry(1, "Pave_Stone", *events))
    assert code == (1 if hit else 0)
    assert ("pave-stone 1.5.0 is hit by INVENTED-1: invented" in told) == hit
    assert "Of these it says nothing: kerb, sand" in told


def test_a_list_of_versions_and_an_early_version_are_compared(tool, capsys, tmp_path, lock):
    content = [
        entry(1, "kerb", versions=["3.0", "3.1.0"]),
        entry(2, "sand", {"introduced": "2.0"}),
        entry(3, "pave-stone", versions=["1.4"]),
    ]
    code, told = ran(tool, capsys, tmp_path, lock, content)
    assert code == 1
    assert "INVENTED-1" in told and "INVENTED-2" not in told and "INVENTED-3" not in told
    assert "1 hits in 3 locked packages; the file names 3 of them." in told


def test_what_was_withdrawn_or_is_of_another_place_hits_nothing(tool, capsys, tmp_path, lock):
    withdrawn = entry(1, "kerb", {"introduced": "0"}) | {"withdrawn": "2027-05-04T00:00:00Z"}
    elsewhere = entry(2, "kerb", {"introduced": "0"})
    elsewhere["affected"][0]["package"]["ecosystem"] = "npm"
    code, told = ran(tool, capsys, tmp_path, lock, [withdrawn, elsewhere])
    assert code == 0
    assert "the file names 0 of them" in told


def test_each_of_several_locked_versions_is_compared(tool, capsys, tmp_path, lock):
    lock.write_text("kerb==3.1 ; python_version < '3.12'\nkerb==4.0 ; python_version >= '3.12'\n", "utf-8")
    code, told = ran(tool, capsys, tmp_path, lock, entry(1, "kerb", {"introduced": "0"}, {"fixed": "3.5"}))
    assert code == 1
    assert "kerb 3.1 is hit" in told and "kerb 4.0" not in told


def test_a_zip_is_read_whole(tool, capsys, tmp_path, lock):
    file = tmp_path / "all.zip"
    with zipfile.ZipFile(file, "w") as made:
        made.writestr("a.json", json.dumps(entry(1, "kerb", {"introduced": "0"})))
        made.writestr("b.json", json.dumps([entry(2, "sand", {"introduced": "0"})]))
    assert tool.main([str(file), "--lock", str(lock)]) == 1
    assert capsys.readouterr().out.count("is hit by") == 2


@pytest.mark.parametrize("content", [b"", b"{", b"[1]", b'{"summary": "no id"}', b"PK\x03\x04 cut short"])
def test_a_file_that_is_none_is_refused_and_is_not_sound(tool, capsys, tmp_path, lock, content):
    file = tmp_path / "known.json"
    file.write_bytes(content)
    assert tool.main([str(file), "--lock", str(lock)]) == 2
    assert tool.main([str(tmp_path / "missing.json"), "--lock", str(lock)]) == 2
    assert tool.main([str(file), "--lock", str(file)]) == 2
    assert "holds no entries" in capsys.readouterr().err


def test_the_lock_of_the_program_is_read_whole(tool):
    text = (ROOT / "requirements.lock").read_text("utf-8")
    versions = tool.locked(ROOT / "requirements.lock").values()
    assert sum(len(each) for each in versions) == sum(line[:1].isalnum() for line in text.splitlines())
