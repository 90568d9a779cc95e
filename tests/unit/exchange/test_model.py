"""The building model, read back by the library that other programs use."""

from __future__ import annotations

import ifcopenshell
import ifcopenshell.geom
import ifcopenshell.util.element
import ifcopenshell.validate
import numpy as np
import pytest

from pavewright import units
from pavewright.exchange import Whereabouts, to_ifc

JOBS = ("demo", "gully_yard", "curved_path")


@pytest.fixture(scope="module")
def model(made_plan):
    kept = {}

    def read(name):
        if name not in kept:
            kept[name] = (made_plan(name), ifcopenshell.file.from_string(to_ifc(made_plan(name)).decode()))
        return kept[name]

    return read


def shown(element, context):
    """Return corners and faces of a thing, as the library makes them. [m]."""
    settings = ifcopenshell.geom.settings()
    settings.set("context-identifiers", [context])
    made = ifcopenshell.geom.create_shape(settings, element)
    corners = np.array(made.geometry.verts).reshape(-1, 3)
    return corners[np.array(made.geometry.faces).reshape(-1, 3)]


def volume_m3(element):
    corners = shown(element, "Body")
    return float(np.linalg.det(corners - corners[0, 0]).sum() / 6.0)


def plan_area_m2(element):
    a, b, c = np.moveaxis(shown(element, "Surface")[:, :, :2], 1, 0)
    return float(np.abs(np.cross(np.pad(b - a, ((0, 0), (0, 1))), np.pad(c - a, ((0, 0), (0, 1))))[:, 2]).sum() / 2.0)


@pytest.mark.parametrize("name", JOBS[:2])
def test_it_holds_to_the_schema(model, name):
    log = ifcopenshell.validate.json_logger()
    ifcopenshell.validate.validate(model(name)[1], log)
    assert log.statements == []


@pytest.mark.slow
@pytest.mark.filterwarnings("ignore::pytest.PytestUnraisableExceptionWarning", "ignore::ResourceWarning")
def test_it_holds_to_the_rules_of_the_schema(model):
    log = ifcopenshell.validate.json_logger()
    ifcopenshell.validate.validate(model("curved_path")[1], log, express_rules=True)
    assert log.statements == []


@pytest.mark.parametrize("name", JOBS)
def test_areas_and_volumes_read_back_are_those_of_the_plan(model, name):
    plan, file = model(name)
    pavements = {each.Name: each for each in file.by_type("IfcPavement")}
    assert set(pavements) == {area.name for area in plan.survey.site.areas}
    for up in plan.build_ups.areas:
        laid = plan.laying.area(up.area)
        assert plan_area_m2(pavements[up.area]) == pytest.approx(laid.paved_m2 + laid.joint_m2, rel=1e-4)
        courses = ifcopenshell.util.element.get_parts(pavements[up.area])
        assert [each.Name for each in courses] == [layer.name for layer in up.layers]
        for course, layer in zip(courses, up.layers, strict=True):
            if layer.thickness_mm and layer.extends_mm == max(each.extends_mm for each in up.layers):
                expected = up.base_shape.area_m2 * units.mm_to_m(layer.thickness_mm)
                assert volume_m3(course) == pytest.approx(expected, rel=1e-5)
                assert ifcopenshell.util.element.get_material(course).Name == layer.name


@pytest.mark.parametrize("name", JOBS)
def test_the_dig_read_back_is_that_of_the_plan(model, name):
    plan, file = model(name)
    cuts = {each.VoidsElements[0].RelatingBuildingElement.Name: each for each in file.by_type("IfcEarthworksCut")}
    assert list(cuts) == ["Ground as it was read"]
    found = sum(volume_m3(each) for each in file.by_type("IfcEarthworksCut"))
    # along the strip past a folded outline the nearest plane is taken corner by corner
    assert found == pytest.approx(plan.earthworks.cut_m3, rel=1e-3)


def test_levels_read_back_are_those_of_the_plan(model):
    plan, file = model("gully_yard")
    surface = plan.levels.area("Yard").surface
    for x, y, z in shown(file.by_type("IfcPavement")[0], "Surface").reshape(-1, 3):
        expected = surface.level_at((units.m_to_mm(x), units.m_to_mm(y)))
        assert units.m_to_mm(z) == pytest.approx(expected, abs=0.01)


def test_the_bed_and_the_base_are_as_they_are_bought(model):
    plan, file = model("demo")
    bought = {item.key.text: item.net for item in plan.quantities.items}
    found = {each.Name: volume_m3(each) for each in file.by_type("IfcCourse")}
    measured = sorted([bought["mortar_bed"], bought["concrete_base"]])
    assert min(found.values()) == pytest.approx(measured[0], rel=1e-5)
    assert max(found.values()) == pytest.approx(measured[1], rel=1e-5)


def test_the_same_job_gives_the_same_bytes_and_marks_outlive_a_change(made_plan):
    plan = made_plan("demo")
    first = to_ifc(plan)
    assert to_ifc(plan) == first
    placed = to_ifc(plan, Whereabouts(51.5, -1.25, (0.0, 0.0), 24.0))
    marks = [
        {each.GlobalId for each in ifcopenshell.file.from_string(b.decode()).by_type("IfcRoot")}
        for b in (first, placed)
    ]
    assert marks[0] == marks[1]
    assert b"2027-03-18T00:00:00" in first


def test_it_says_whether_it_stands_on_the_earth(made_plan):
    plan = made_plan("demo")
    local = ifcopenshell.file.from_string(to_ifc(plan).decode()).by_type("IfcSite")[0]
    assert local.RefLatitude is None and "not known" in local.Description
    there = Whereabouts(51.5, -1.25, (0.0, 0.0), 24.0)
    placed = ifcopenshell.file.from_string(to_ifc(plan, there).decode()).by_type("IfcSite")[0]
    assert (placed.RefLatitude, placed.RefLongitude) == ((51, 30, 0, 0), (-1, -15, 0, 0))
