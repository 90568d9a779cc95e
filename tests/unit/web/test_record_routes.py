"""The record of a job over the wire: shown, handed out as files, stamped; nothing changes an entry."""

from __future__ import annotations

import hashlib
import io
import shutil
import subprocess
import zipfile

import pypdf
import pytest
from PIL import Image

from pavewright.desk import verify_record
from pavewright.record import check_record

READING = {"x_mm": 1500.0, "y_mm": 2500.0, "level_mm": 9990.0, "area": "Terrace", "label": "L90"}


def _picture():
    made = io.BytesIO()
    Image.new("RGB", (40, 30), "grey").save(made, "JPEG")
    return made.getvalue()


@pytest.fixture
def job(client, demo):
    operation = {"op": "add", "at": ["as_laid", "readings"], "item": READING}
    asked = {"key": "k1", "rev": 1, "from": "phone", "note": "levels", "operations": [operation]}
    assert client.post(f"/api/jobs/{demo}/operations", json=asked).status_code == 200
    sent = client.post(f"/api/jobs/{demo}/photos?id=p1&note=drain", content=_picture())
    assert sent.status_code == 201
    return demo


def test_the_screen_gets_the_last_hash_and_every_entry_in_words(client, job):
    told = client.get(f"/api/jobs/{job}/record").json()
    assert told["title"] == "Terrace behind the house"
    assert (told["faults"], told["photos"], told["begun_late"]) == ([], 1, 0)
    assert told["head_text"].replace(" ", "") == told["head"] == told["rows"][0]["digest"]
    assert [row["number"] for row in told["rows"]] == list(range(told["entries"], 0, -1))
    reading = next(row for row in told["rows"] if "label L90" in row["what"])
    assert reading["who"] == "the foreman (invented)"
    assert reading["read_with"] == "automatic level and staff, ± 1.5 mm, on 2027-06-04"


def test_the_files_agree_and_are_found_whole(client, job):
    lines = client.get(f"/api/jobs/{job}/record/record.jsonl")
    assert lines.headers["content-disposition"] == 'attachment; filename="record.jsonl"'
    pdf = client.get(f"/api/jobs/{job}/record/record.pdf").content
    attached = pypdf.PdfReader(io.BytesIO(pdf)).attachments
    assert attached["record.jsonl"][0] == lines.content
    folder = client.get(f"/api/jobs/{job}/record/record.zip").content
    with zipfile.ZipFile(io.BytesIO(folder)) as archive:
        assert archive.read("record.pdf") == pdf
        image = archive.read("photos/p1.jpg")
    assert hashlib.sha256(image).hexdigest() in lines.text
    for content in (lines.content, pdf, folder):
        assert verify_record(content, check_record(lines.content).seal.head).faults == ()
    assert "HOW TO CHECK" in client.get(f"/api/jobs/{job}/record/instructions.txt").text


def test_what_is_no_file_of_a_record_and_no_job_is_said(client, job):
    assert client.get(f"/api/jobs/{job}/record/other.txt").status_code == 404
    assert client.get("/api/jobs/nobody/record").status_code == 404
    for content, status in ((b"", 400), (b"no token", 422), (bytes(70_000), 413)):
        answered = client.post(f"/api/jobs/{job}/record/tokens", content=content)
        assert (answered.status_code, bool(answered.json()["message"])) == (status, True)


def test_nothing_over_the_wire_changes_or_deletes_an_entry(client, job):
    before = client.get(f"/api/jobs/{job}/record/record.jsonl").content
    for path in ("record", "record/record.jsonl", "record/tokens"):
        for method in ("PUT", "PATCH", "DELETE"):
            assert client.request(method, f"/api/jobs/{job}/{path}").status_code in {404, 405}
    assert client.get(f"/api/jobs/{job}/record/record.jsonl").content == before


@pytest.mark.skipif(shutil.which("openssl") is None, reason="openssl is not here")
def test_the_timestamp_of_an_authority_is_kept_with_the_entry_that_it_stamps(client, job, tmp_path):
    (tmp_path / "tsa.cnf").write_text(
        "[req]\ndistinguished_name=dn\n[dn]\n[ext]\nextendedKeyUsage=critical,timeStamping\n[tsa]\ndefault_tsa=t\n"
        "[t]\nserial=serial\nsigner_cert=cert.pem\nsigner_key=key.pem\nsigner_digest=sha256\ndefault_policy=1.2.3.4\n"
        "digests=sha256\ness_cert_id_alg=sha256\n"
    )
    (tmp_path / "serial").write_text("01\n")

    def openssl(*words):
        subprocess.run(["openssl", *words], cwd=tmp_path, check=True, capture_output=True, timeout=60)

    openssl(
        *("req", "-x509", "-newkey", "rsa:2048", "-nodes", "-keyout", "key.pem", "-out", "cert.pem", "-days", "9"),
        *("-subj", "/CN=Invented", "-config", "tsa.cnf", "-extensions", "ext"),
    )
    told = client.get(f"/api/jobs/{job}/record").json()
    openssl("ts", "-query", "-digest", told["head"], "-sha256", "-cert", "-out", "ask.tsq")
    openssl("ts", "-reply", "-config", "tsa.cnf", "-queryfile", "ask.tsq", "-out", "answer.tsr")
    token = (tmp_path / "answer.tsr").read_bytes()
    for _ in range(2):  # sent twice, kept once
        kept = client.post(f"/api/jobs/{job}/record/tokens", content=token)
        assert (kept.status_code, kept.json()["entry"]) == (201, told["entries"])
    after = client.get(f"/api/jobs/{job}/record").json()
    assert after["entries"] == told["entries"] + 1
    (words,) = after["stamps"]
    assert words.startswith(f"Entry {told['entries']} existed by 20")
    assert words.endswith("it does not say how far its time may be off.")
    pdf = client.get(f"/api/jobs/{job}/record/record.pdf").content
    attached = pypdf.PdfReader(io.BytesIO(pdf)).attachments
    assert attached[f"timestamp-{after['entries']}.tsr"][0] == token
    assert verify_record(pdf, token=token).faults == ()
