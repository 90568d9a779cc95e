import json

import jsonschema
import pytest

from pavewright.job import JobInvalid, load_document, parse, schema, to_text


def document():
    return {
        "format": "pavewright.job",
        "version": 1,
        "identity": {"job": "D1", "title": "Demo", "date": "2027-04-12", "locality": "england", "invented": True},
        "measurements": {"points": [{"name": n, "x_mm": x, "y_mm": y} for n, x, y in
                                    (("A", 0, 0), ("B", 4000, 0), ("C", 4000, 3000), ("D", 0, 3000))]},
        "areas": [{"name": "Terrace", "outline": [{"point": n} for n in "ABCD"], "laying": {"unit": "Slab"}}],
        "units": [{"name": "Slab", "length_mm": 600, "width_mm": 600, "thickness_mm": 40, "kg_each": 33.0,
                   "per_pack": 20, "pack_price_minor": 40000}],
        "rates": {"labour_minor_per_hour": 2500},
        "crew": {"people": 2},
        "calendar": {"start": "2027-05-03"},
    }  # fmt: skip


def faults(text):
    with pytest.raises(JobInvalid) as caught:
        parse(load_document(text))
    return caught.value.faults


def test_a_sound_document_goes_round_unchanged():
    job = parse(document())
    assert parse(load_document(to_text(job))) == job
    jsonschema.Draft202012Validator(schema()).validate(json.loads(to_text(job)))


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("x" * 5_000_001, "right file"),
        ("[" * 100 + "]" * 100, "deep"),
        ('{"a": NaN}', "NaN"),
        ('{"a": 1, "a": 2}', "twice"),
        ("[]", "curly bracket"),
        ('{"a": ', "line 1"),
        (b"\xff\xfe", "UTF-8"),
        ('{"format": "other"}', "not a job document"),
        ('{"format": "pavewright.job", "version": 99}', "99"),
    ],
)
def test_what_is_no_document_gets_a_sentence(text, words):
    (fault,) = faults(text)
    assert words in fault.message


def test_all_faults_come_at_once_each_with_its_place():
    bad = document()
    bad["units"][0]["per_pack"] = -4
    bad["units"][0]["length_mm"] = "600"
    bad["crew"]["people"] = 0
    bad["areas"][0]["use"] = "lorry"
    found = {fault.path: fault.message for fault in faults(json.dumps(bad))}
    assert set(found) == {"units.0.per_pack", "units.0.length_mm", "crew.people", "areas.0.use"}
    assert "less than 1" in found["units.0.per_pack"]
    assert "less than 1" in found["crew.people"]
