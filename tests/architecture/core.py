"""What the gates on the core rooms share: the rules of tools/metrics.py, and the trees of the rooms."""

from __future__ import annotations

import ast
import importlib.util
import sys
from functools import cache
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
SOURCE = ROOT / "src" / "pavewright"


def _metrics():
    found = importlib.util.spec_from_file_location("metrics", ROOT / "tools" / "metrics.py")
    module = importlib.util.module_from_spec(found)
    before = sys.modules.get("metrics")
    sys.modules["metrics"] = module  # its records look their module up while they are made
    try:
        found.loader.exec_module(module)
    finally:
        if before is None:
            del sys.modules["metrics"]
        else:
            sys.modules["metrics"] = before
    return module


METRICS = _metrics()


@cache
def trees() -> dict[str, ast.Module]:
    """Return the syntax of every module of the core rooms by its path."""
    return {
        path.relative_to(SOURCE).as_posix(): ast.parse(path.read_text("utf-8"))
        for path in sorted(SOURCE.rglob("*.py"))
        if path.relative_to(SOURCE).parts[0].removesuffix(".py") in METRICS.CORE
    }
