"""The commands of records: hand one out, and check one that was handed out."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from pavewright.cli._stop import UNSOUND, stop
from pavewright.cli._where import DATA, kept_at

_FILE = click.Path(path_type=Path, exists=True, dir_okay=False)
_NEW = click.Path(path_type=Path, dir_okay=False)


@click.command("record")
@click.argument("job")
@click.option("--to", "target", type=_NEW, help="File to write: .pdf, .zip with the photos, or .jsonl. [record.pdf]")
@click.option("--timestamp", type=_FILE, help="Token of a timestamp authority (RFC 3161) to keep in the record first.")
@DATA
def record_command(job: str, target: Path | None, timestamp: Path | None, data: Path | None) -> None:
    """Write the record of JOB as one PDF with its data attached, or as a zip file with the photos.

    JOB is the name of the job in its address, or words of its title. Prints the hash of the last entry: send it to the
    customer. A timestamp is asked for by that hash: openssl ts -query -digest HASH -sha256 -cert -out ask.tsq.

    \b
    Example: pavewright record "Terrace" --to terrace.pdf
             pavewright record 0a1b2c3d4e5f6071 --timestamp answer.tsr --to terrace.zip
    """  # noqa: D301 - the sign keeps click from joining lines
    from pavewright.cli._record_out import RecordNotMadeError, write_record  # noqa: PLC0415 - loads the database

    try:
        for line in write_record(kept_at(data), job, target or Path("record.pdf"), timestamp):
            click.echo(line)
    except RecordNotMadeError as refusal:
        click.echo(str(refusal), err=True)
        sys.exit(UNSOUND)


@click.command("verify-record")
@click.argument("file", type=_FILE)
@click.option("--hash", "head", default="", help="A hash that was given out earlier: is it that of an entry?")
@click.option("--timestamp", type=_FILE, help="Token of a timestamp authority that was kept beside the record.")
def verify_record_command(file: Path, head: str, timestamp: Path | None) -> None:
    """Check a record that was handed out: a PDF, a zip file or record.jsonl.

    Every hash is worked out anew; photos beside the record are held against theirs. Whether the signature of a
    timestamp holds is left to openssl ts -verify. Without a hash that was given out nobody can tell whether the whole
    record was written anew. Exit code 1: something was changed; 2: the file holds no record.

    \b
    Example: pavewright verify-record record.pdf
             pavewright verify-record record.zip --hash "1b37e54c 02ec484d …"
    """  # noqa: D301 - the sign keeps click from joining lines
    from pavewright.cli._record_words import WORDS, verified_lines  # noqa: PLC0415
    from pavewright.desk import verify_record  # noqa: PLC0415
    from pavewright.files import RecordFileRefusedError  # noqa: PLC0415
    from pavewright.record import TokenRefusedError  # noqa: PLC0415

    token = None if timestamp is None else timestamp.read_bytes()
    try:
        found = verify_record(file.read_bytes(), "".join(head.split()), token)
    except RecordFileRefusedError as refusal:
        stop(f"{file.name}: {refusal}")
    except TokenRefusedError:
        stop(WORDS.stamp_unread)
    for line in verified_lines(found, asked_head=bool(head)):
        click.echo(line)
    sys.exit(1 if found.faults else 0)
