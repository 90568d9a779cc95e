"""Kernels are compiled for the signature that they state, and for nothing else."""

from __future__ import annotations

import importlib
from pathlib import Path

import numpy as np
import pytest
from click.testing import CliRunner

import pavewright
from pavewright.cli import main
from pavewright.cli._compile import KERNELS
from pavewright.compiled import ENTRANCES, called_with

SOURCE = Path(pavewright.__file__).parent


def doubled(row):
    return row * 2.0


@pytest.fixture
def double(monkeypatch):
    monkeypatch.setattr("pavewright.compiled.ENTRANCES", {})
    return called_with("float64[::1]")(doubled)


def test_a_kernel_takes_what_it_states_and_refuses_another_kind_of_array(double):
    assert double(np.array([1.5, 2.0])).tolist() == [3.0, 4.0]
    for other in (np.array([1, 2]), np.zeros((2, 2)), np.zeros(4)[::2]):
        with pytest.raises(TypeError, match="No matching definition"):
            double(other)


def test_nothing_is_compiled_before_it_is_called(double):
    assert double._machine is None


def test_set_up_compiles_every_kernel_that_python_calls():
    stating = {
        ".".join(path.relative_to(SOURCE).with_suffix("").parts)
        for path in SOURCE.rglob("*.py")
        if "@called_with(" in path.read_text("utf-8")
    }
    assert stating == set(KERNELS)
    reported = CliRunner().invoke(main, ["compile"])
    assert reported.exit_code == 0, reported.output
    for module in KERNELS:
        importlib.import_module(f"pavewright.{module}")
    assert reported.output.count("kernel ") == len(ENTRANCES)
    for entrance in ENTRANCES.values():
        assert len(entrance._machine.signatures) == 1
