"""The published schema: every measure says its unit, and the schema itself is sound."""

from __future__ import annotations

import json
from pathlib import Path

import jsonschema
import pytest

from pavewright.job import schema

ROOT = Path(__file__).parents[3]
UNITS = {
    "m2": "[m2]",
    "mm": "[mm]",
    "m": "[m]",
    "deg": "[deg]",
    "percent": "[%]",
    "m3": ("[m³]", "[kg/m³]"),
    "tonnes": "[t]",
    "minor": "[minor units]",
    "min": "[min]",
    "hour": ("[minor units an hour]", "[l/h]"),
    "c": "[°C]",
    "day": "[h]",
    "h": "[h]",
    "in": "[1 in n]",
    "db": "[dB(A)]",
    "s2": "[m/s²]",
    "px": "[px]",
}
"""End of a field's name, and the unit that its description has to state."""
KG = "[kg]"


def takes_numbers(field):
    if "anyOf" in field:
        return any(takes_numbers(each) for each in field["anyOf"])
    return field.get("type") in {"number", "integer"}


def measures():
    tree = schema()
    for owner, kind in {"Job": tree, **tree["$defs"]}.items():
        for name, field in kind.get("properties", {}).items():
            if takes_numbers(field):
                yield owner, name, field.get("description", "")


def unit_of(name):
    return KG if name.startswith("kg_") else UNITS.get(name.rsplit("_", 1)[-1]) if "_" in name else None


@pytest.mark.parametrize(("owner", "name", "description"), [each for each in measures() if unit_of(each[1])])
def test_every_measure_states_its_unit(owner, name, description):
    unit = unit_of(name)
    assert description.endswith(unit), f"{owner}.{name} says {description!r}"


def test_only_counts_and_parts_go_without_a_unit():
    bare = {f"{owner}.{name}" for owner, name, _ in measures() if not unit_of(name)}
    assert bare == {
        "Accepted.days_to_pay",
        "Accepted.revision",
        "Accepted.stored_revision",
        "Bill.credits",
        "Bill.number",
        "Bill.stage",
        "Bill.variation",
        "BagsUsed.left_part",
        "BagsUsed.opened",
        "BagsUsed.up_to_piece",
        "DrainTest.lost_litre",
        "DrainTest.minutes",
        "Received.bill",
        "UnitRead.piece",
        "Settled.amount",
        "Settled.number",
        "SumToSettle.amount",
        "SumToSettle.number",
        "Variation.days",
        "Variation.gaps",
        "Variation.number",
        "Variation.stored_revision",
        "ToolsAtHand.string_kg_per_km",
        "ToolsAtHand.string_pull_kg",
        "VariationMeasure.after",
        "VariationMeasure.before",
        "SumToSettle.percent",
        "TaxedSum.percent",
        "Assembly.amount",
        "Assembly.high",
        "Assembly.low",
        "Border.courses",
        "CatalogueItem.lead_days",
        "CatalogueItem.min_packs",
        "CatalogueItem.pack_amount",
        "CoverKeys.count",
        "Crew.pace",
        "Crew.people",
        "Disposal.lead_days",
        "Disposal.min_packs",
        "Ground.side_slope",
        "Identity.revision",
        "Job.version",
        "Laying.mix",
        "Laying.stagger",
        "Material.lead_days",
        "Material.min_packs",
        "Material.pack_amount",
        "MixedBatch.count",
        "MixedPack.lead_days",
        "MixedPack.min_packs",
        "MixedPack.parts",
        "MonthWeather.frost_days",
        "MonthWeather.hot_days",
        "MonthWeather.month",
        "MonthWeather.wet_days",
        "OfferedChange.number",
        "OwnOutput.hours_each",
        "OwnOutput.jobs",
        "OwnOutput.sd_hours",
        "PavingUnit.lead_days",
        "PavingUnit.min_packs",
        "PavingUnit.per_pack",
        "PieceInYard.count",
        "PlantHire.days",
        "PlantHire.lead_days",
        "PlantHire.min_days",
        "PlantHire.min_packs",
        "PlantHire.off_hire_days",
        "Quoted.revision",
        "QuotedPack.lead_days",
        "QuotedPack.min_packs",
        "QuotedUnit.lead_days",
        "QuotedUnit.min_packs",
        "ProvisionalRate.amount",
        "ProvisionalRate.high_amount",
        "ProvisionalRate.low_amount",
        "Rain.hour_to_two_days",
        "Rain.years",
        "Rates.price_age_days",
        "SpareUnits.count",
        "PermeableBase.infiltration_m_per_s",
        "Soakaway.infiltration_m_per_s",
        "StagePayment.percent",
        "StepFlight.risers",
        "TaxLine.percent",
        "Terms.complaint_days",
        "Terms.days_to_pay",
        "Terms.defects_days",
        "Terms.deposit_days",
        "Terms.supplier_days",
        "Terms.valid_days",
        "Terms.warranty_months",
    }


def test_the_schema_is_a_schema_and_the_examples_meet_it():
    jsonschema.Draft202012Validator.check_schema(schema())
    for path in sorted((ROOT / "examples").glob("*.json")):
        jsonschema.Draft202012Validator(schema()).validate(json.loads(path.read_text("utf-8")))


def test_the_schema_says_which_way_round_and_what_holds_water():
    tree = schema()["$defs"]
    reported = tree["EdgeRestraint"]["description"]
    for value in tree["EdgeRestraint"]["enum"]:
        assert f"- {value}: " in reported
    assert reported.count("Water") == len(tree["EdgeRestraint"]["enum"])
    assert "either way round" in tree["OutlineCorner"]["description"]
    assert "looks to its end" in tree["TapeSide"]["properties"]["side"]["description"]
    assert "into the lower area" in tree["StepFlight"]["description"]
    assert "grating is there already" in tree["Gully"]["properties"]["state"]["description"]
    kinds = {each.get("type", each.get("$ref")) for each in tree["Wall"]["properties"]["dpc_level_mm"]["anyOf"]}
    assert kinds == {"number", "string", "null", "#/$defs/AssumedLevel"}
