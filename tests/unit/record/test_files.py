"""Files beside a record: the plain instructions are run with common tools, and what was changed is found by both."""

from __future__ import annotations

import base64
import datetime as dt
import hashlib
import re
import shutil
import subprocess
import sys

import pytest

from pavewright.record import (
    INSTRUCTIONS,
    PHOTO_LIST,
    RECORD,
    EntryKind,
    RecordFaultKind,
    TimeToken,
    TokenRefusedError,
    check_files,
    earlier,
    files_beside,
    follows,
    make_entry,
    photos_of,
    read_token,
    record_lines,
    stamps_of,
)

BASH, SUMS, OPENSSL = shutil.which("bash"), shutil.which("sha256sum"), shutil.which("openssl")
needs_bash = pytest.mark.skipif(not (BASH and SUMS), reason="bash and sha256sum are not here; Python runs beside this")
needs_openssl = pytest.mark.skipif(not OPENSSL, reason="openssl is not here")
IMAGES = {"photos/p1.jpg": b"first image", "photos/p3.jpg": b"third image"}


def _entries(*more):
    made, last = [], None
    told = (
        (EntryKind.BEGUN, {"rev": 1, "photos": [{"id": "p1", "sha256": _hash(b"first image"), "at": "2027"}]}),
        (EntryKind.ENTERED, {"op": {"op": "set", "at": ["as_laid"], "to": {"note": 'a "quoted" % \\x41 é $(id)'}}}),
        (EntryKind.PHOTO, {"id": "p2", "sha256": _hash(b"second image"), "note": "drain"}),
        (EntryKind.PHOTO, {"id": "p3", "sha256": _hash(b"third image"), "note": "bed"}),
        (EntryKind.PHOTO_DELETED, {"id": "p2", "sha256": _hash(b"second image")}),
        *more,
    )
    for step, (kind, facts) in enumerate(told):
        number, before = follows(last)
        last = make_entry(number, before, f"2027-05-04T08:{step:02d}:00.000+00:00", kind, facts)
        made.append(last)
    return made


def _hash(content):
    return hashlib.sha256(content).hexdigest()


def _folder(tmp_path, files):
    for name, content in files.items():
        path = tmp_path / name
        path.parent.mkdir(exist_ok=True)
        path.write_bytes(content)
    text = (tmp_path / INSTRUCTIONS).read_text("utf-8")
    for name, commands in re.findall(r"--- begin (\S+) ---\n(.*?)--- end \1 ---", text, re.DOTALL):
        (tmp_path / name).write_text(commands, "utf-8")
    return tmp_path


def _run(folder, *words):
    done = subprocess.run(words, cwd=folder, capture_output=True, text=True, check=False, timeout=60)
    return done.stdout + done.stderr


def _whole(entries=None):
    return files_beside(record_lines("j" * 16, entries or _entries()))


def test_the_instructions_find_no_fault_in_a_record_that_nobody_touched_with_python(tmp_path):
    entries = _entries()
    folder = _folder(tmp_path, _whole(entries))
    said = _run(folder, sys.executable, "chain.py")
    assert "this record hangs together" in said
    assert f"entries: 5 hash of the last one: {entries[-1].digest}" in said
    assert "does not follow" not in said


@needs_bash
def test_the_instructions_find_no_fault_in_it_with_the_shell(tmp_path):
    entries = _entries()
    folder = _folder(tmp_path, _whole(entries) | IMAGES)
    said = _run(folder, BASH, "chain.sh")
    assert said == f"entries: 5, hash of the last one: {entries[-1].digest}\nthe last line agrees\n"
    assert (folder / "hashes.txt").read_text() == "".join(f"{each.number} {each.digest}\n" for each in entries)
    assert _run(folder, BASH, "photos.sh") == "photos/p1.jpg: OK\nphotos/p3.jpg: OK\n"
    (folder / "photos/p3.jpg").write_bytes(b"another image")
    assert "photos/p3.jpg: FAILED" in _run(folder, BASH, "photos.sh")


def _lines(files):
    return files[RECORD].decode().splitlines(keepends=True)


CHANGES = {
    "deleted": lambda lines: [*lines[:2], *lines[3:]],
    "swapped": lambda lines: [lines[0], lines[2], lines[1], *lines[3:]],
    "edited": lambda lines: [*lines[:2], lines[2].replace("drain", "dry"), *lines[3:]],
    "re-dated": lambda lines: [lines[0].replace("2027-05-04", "2027-05-03"), *lines[1:]],
    "put in": lambda lines: [*lines[:3], lines[2], *lines[3:]],
    "last deleted": lambda lines: [*lines[:4], *lines[5:]],
    "last edited": lambda lines: [*lines[:4], lines[4].replace("p2", "p9"), *lines[5:]],
    "seal edited": lambda lines: [*lines[:5], re.sub('"head":"[0-9a-f]', '"head":"x', lines[5])],
}


@pytest.mark.parametrize("change", CHANGES)
def test_what_was_changed_is_found_with_common_tools_and_with_ours(tmp_path, change):
    files = _whole()
    files[RECORD] = "".join(CHANGES[change](_lines(files))).encode()
    assert files != _whole()
    assert check_files(files).faults
    folder = _folder(tmp_path, files)
    assert "this record hangs together" not in _run(folder, sys.executable, "chain.py")
    if BASH and SUMS:
        said = _run(folder, BASH, "chain.sh")
        assert "does not follow" in said or "does NOT agree" in said


def test_photos_are_those_that_were_not_deleted():
    first, second, third = photos_of(_entries())
    assert (first.entry, second.deleted, third.note) == (1, 5, "bed")
    found = check_files(_whole() | IMAGES)
    assert (found.faults, found.photos_right, found.photos_absent) == ((), 2, 0)
    assert check_files(_whole()).photos_absent == 2


def test_a_photo_that_differs_or_was_never_recorded_is_a_fault():
    differs = check_files(_whole() | {"photos/p1.jpg": b"other"}).faults
    assert [(each.kind, each.number, each.name) for each in differs] == [
        (RecordFaultKind.FILE_DIFFERS, 1, "photos/p1.jpg")
    ]
    (strange,) = check_files(_whole() | {"photos/p2.jpg": b"second image"}).faults
    assert strange.kind is RecordFaultKind.FILE_UNKNOWN
    (listed,) = check_files(_whole() | {PHOTO_LIST: b""}).faults
    assert listed.kind is RecordFaultKind.LIST_DIFFERS


@pytest.fixture(scope="module")
def authority(tmp_path_factory):
    """A timestamp authority of our own, as openssl makes one."""
    folder = tmp_path_factory.mktemp("authority")
    (folder / "tsa.cnf").write_text(
        "[req]\ndistinguished_name=dn\n[dn]\n[ext]\nextendedKeyUsage=critical,timeStamping\n"
        "[tsa]\ndefault_tsa=t\n[t]\nserial=serial\ncrypto_device=builtin\nsigner_cert=cert.pem\nsigner_key=key.pem\n"
        "signer_digest=sha256\ndefault_policy=1.2.3.4\ndigests=sha256,sha512\naccuracy=secs:1,millisecs:500\n"
        "ess_cert_id_chain=no\ness_cert_id_alg=sha256\n",
        "utf-8",
    )
    (folder / "serial").write_text("01\n")
    _openssl(
        folder,
        *("req", "-x509", "-newkey", "rsa:2048", "-nodes", "-keyout", "key.pem", "-out", "cert.pem", "-days", "30"),
        *("-subj", "/CN=Invented authority", "-config", "tsa.cnf", "-extensions", "ext"),
    )
    return folder


def _openssl(folder, *words):
    done = subprocess.run([OPENSSL, *words], cwd=folder, capture_output=True, text=True, check=False, timeout=60)
    assert done.returncode == 0, done.stderr


def _stamp(folder, digest, *more):
    _openssl(folder, "ts", "-query", "-digest", digest, *(more or ("-sha256",)), "-cert", "-out", "query.tsq")
    _openssl(folder, "ts", "-reply", "-config", "tsa.cnf", "-queryfile", "query.tsq", "-out", "answer.tsr")
    _openssl(folder, "ts", "-reply", "-config", "tsa.cnf", "-in", "answer.tsr", "-out", "alone.tst", "-token_out")
    return (folder / "answer.tsr").read_bytes(), (folder / "alone.tst").read_bytes()


@needs_openssl
def test_a_token_is_read_alone_and_in_its_answer(authority):
    answer, alone = _stamp(authority, _hash(b"x"))
    for content, is_answer in ((answer, True), (alone, False)):
        token = read_token(content)
        assert (token.imprint, token.policy, token.accuracy_s) == (_hash(b"x"), "1.2.3.4", 1.5)
        assert abs((dt.datetime.now(dt.UTC) - token.at).total_seconds()) < 120
        assert (token.serial > 0, token.is_answer, token.ordering) == (True, is_answer, False)


@needs_openssl
def test_a_token_that_was_cut_short_or_stamps_another_kind_of_hash_is_refused(authority):
    answer, alone = _stamp(authority, _hash(b"x"))
    long_one, _ = _stamp(authority, "ab" * 64, "-sha512")
    refused = [answer[:cut] for cut in range(0, len(answer), 97)] + [alone[:cut] for cut in range(0, len(alone), 97)]
    for content in (*refused, answer + b"\0", long_one, b"\x30\x80" * 30_000, b"\x30\x84\xff\xff\xff\xff"):
        with pytest.raises(TokenRefusedError):
            read_token(content)


@needs_openssl
def test_a_stamped_record_is_checked_with_openssl_alone(tmp_path, authority):
    first = _entries()
    answer, _ = _stamp(authority, first[3].digest)
    _, alone = _stamp(authority, first[4].digest)
    told = [(EntryKind.TIMESTAMP, {"token": base64.b64encode(content).decode("ascii")}) for content in (answer, alone)]
    entries = _entries(*told)
    assert [(each.entry, each.of_entry, each.is_answer) for each in stamps_of(entries)] == [(6, 4, True), (7, 5, False)]
    files = _whole(entries)
    assert check_files(files).faults == ()
    folder = _folder(tmp_path, files)
    shutil.copy(authority / "cert.pem", folder / "authority.pem")
    said = _run(folder, BASH, "stamps.sh")
    assert said.count("Verification: OK") == 2
    assert said.count("Policy OID: 1.2.3.4") == 2
    files["timestamp-6.tsr"] = answer[:-1] + bytes([answer[-1] ^ 1])
    assert [each.kind for each in check_files(files).faults] == [RecordFaultKind.FILE_DIFFERS]
    (folder / "timestamp-6.tsr").write_bytes(files["timestamp-6.tsr"])
    assert _run(folder, BASH, "stamps.sh").count("Verification: OK") == 1


@needs_openssl
def test_a_token_of_another_record_is_a_fault(authority):
    answer, _ = _stamp(authority, _hash(b"another record"))
    entries = _entries((EntryKind.TIMESTAMP, {"token": base64.b64encode(answer).decode("ascii")}))
    assert [each.kind for each in check_files(_whole(entries)).faults] == [RecordFaultKind.TOKEN_OF_ANOTHER]
    entries = _entries((EntryKind.TIMESTAMP, {"token": "no base64"}))
    assert [each.kind for each in check_files(_whole(entries)).faults] == [RecordFaultKind.TOKEN_UNREADABLE]


def _token(second, accuracy):
    at = dt.datetime(2027, 5, 4, 8, 0, second, tzinfo=dt.UTC)
    return TimeToken("0" * 64, at, accuracy, 1, "1.2", ordering=False, is_answer=True)


def test_two_tokens_are_ordered_only_where_they_lie_further_apart_than_their_accuracies():
    # RFC 3161, section 2.4.2: more than the sum of the accuracies
    assert earlier(_token(0, 1.0), _token(3, 1.0)) is True
    assert earlier(_token(3, 1.0), _token(0, 1.0)) is False
    assert earlier(_token(0, 1.0), _token(2, 1.0)) is None
    assert earlier(_token(0, None), _token(30, 1.0)) is None


def test_facts_of_another_shape_are_no_photos():
    entries = _entries((EntryKind.PHOTO, {"id": "../../etc"}), (EntryKind.PHOTO, {"id": 7}))
    assert {each.id for each in photos_of(entries)} == {"p1", "p2", "p3", "7"}
