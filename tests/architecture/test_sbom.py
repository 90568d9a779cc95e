"""The bill of materials: whole, valid, and refused where it is not."""

from __future__ import annotations

import importlib.util
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
_SPEC = importlib.util.spec_from_file_location("make_sbom", ROOT / "tools" / "make_sbom.py")
assert _SPEC is not None
assert _SPEC.loader is not None
sbom = importlib.util.module_from_spec(_SPEC)
_SPEC.loader.exec_module(sbom)


@pytest.fixture(scope="module")
def made():
    return sbom.bill()


def test_every_locked_package_is_in_the_bill_with_version_digest_and_licence(made):
    names = {sbom.normal(each["name"]) for each in made["components"]}
    assert names == set(sbom.locked_names())
    for each in made["components"]:
        assert each["version"]
        assert each["licenses"]
    scopes = {each["name"]: each["scope"] for each in made["components"]}
    assert scopes["starlette"] == "required"
    assert scopes["pytest"] == scopes["dask"] == "optional"
    assert sbom.faults(made) == []


def test_what_the_schema_does_not_know_is_found(made):
    wrong = {**made, "components": [{**made["components"][0], "type": "paving"}]}
    assert "paving" in sbom.faults(wrong)[0]


def test_a_package_without_a_digest_is_refused(tmp_path):
    lock = tmp_path / "requirements.lock"
    lock.write_text("starlette==1.10.0\n")
    with pytest.raises(sbom.SbomError, match="starlette is locked without a digest"):
        sbom.bill(lock)
