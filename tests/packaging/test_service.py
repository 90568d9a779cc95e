"""The unit for systemd keeps what the page about operating promises of it."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import click
import pytest

from pavewright.cli import main

ROOT = Path(__file__).parents[2]
UNIT = ROOT / "deploy" / "pavewright.service"


@pytest.fixture(scope="module")
def said():
    """Every setting of the unit, with all that is said of it."""
    found = {}
    for line in UNIT.read_text("utf-8").splitlines():
        if "=" in line and not line.startswith("#"):
            name, _, value = line.partition("=")
            found.setdefault(name, []).append(value)
    return found


def test_the_service_is_nobody_and_can_write_two_folders_only(said):
    assert said["DynamicUser"] == ["yes"]
    assert "User" not in said
    assert said["ProtectSystem"] == ["strict"]
    assert said["StateDirectory"] == said["CacheDirectory"] == ["pavewright"]
    assert not set(said) & {"ReadWritePaths", "LogsDirectory", "ConfigurationDirectory", "BindPaths"}
    assert said["CapabilityBoundingSet"] == said["AmbientCapabilities"] == [""]
    for name in ("NoNewPrivileges", "ProtectHome", "PrivateTmp", "PrivateDevices", "RestrictSUIDSGID"):
        assert said[name] == ["yes"], name
    assert "%C/pavewright" in said["Environment"][0]


def test_the_line_that_starts_it_is_a_command_of_the_program(said):
    words = said["ExecStart"][0].split()
    assert words[0].endswith("/bin/pavewright")
    command = main.get_command(click.Context(main), words[1])
    context = command.make_context(words[1], list(words[2:]))
    assert context.params["on_network"]
    assert context.params["no_browser"]
    assert context.params["log"] == "json"
    assert str(context.params["data"]).startswith("%S/pavewright/")


@pytest.mark.skipif(shutil.which("systemd-analyze") is None, reason="systemd is not on this machine")
def test_systemd_reads_the_unit_without_a_complaint(tmp_path):
    here = tmp_path / UNIT.name
    here.write_text(UNIT.read_text("utf-8").replace("/opt/pavewright/bin/pavewright", "/bin/true"), "utf-8")
    read = subprocess.run(["systemd-analyze", "verify", str(here)], capture_output=True, text=True, check=False)
    assert UNIT.name not in read.stderr
    wrong = tmp_path / "wrong.service"
    wrong.write_text(here.read_text("utf-8").replace("ProtectHome=yes", "ProtectHouse=yes"), "utf-8")
    read = subprocess.run(["systemd-analyze", "verify", str(wrong)], capture_output=True, text=True, check=False)
    assert "ProtectHouse" in read.stderr
