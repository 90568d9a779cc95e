"""The command that makes the survey form: blank without a job, filled in as far as a job knows."""

from __future__ import annotations

from pathlib import Path

import click

from pavewright.cli._asked import FIRM, book_or_stop, plan_so_far_or_stop
from pavewright.cli._stop import stop
from pavewright.desk import make_pack_so_far, make_plan_so_far, read_book, starter_document
from pavewright.papers import PaperKey


@click.command("survey-form")
@click.argument("job", required=False, type=click.Path(path_type=Path))
@click.option(
    "-o",
    "--output",
    "form",
    default="survey-form.pdf",
    show_default=True,
    type=click.Path(dir_okay=False, path_type=Path),
    help="File to write.",
)
@click.option("--title", default="", help="What a job is called that is not known yet.")
@FIRM
def survey_form_command(job: Path | None, form: Path, title: str, firm: Path | None) -> None:
    """Make the form that is filled in by hand at the house: sketch, tapes, level book, walk round.

    Without a job it is blank. With a job it shows what is known and leaves room for what is open, and the adjusted
    survey follows.

    \b
    Example: pavewright survey-form -o blank.pdf
             pavewright survey-form examples/l_terrace.json -o form.pdf
    """  # noqa: D301 - the sign keeps click from joining lines
    book = None if firm is None else book_or_stop(firm)
    if job is None:
        made = make_plan_so_far(starter_document(title, book))
    else:
        made = plan_so_far_or_stop(job, quiet=True, firm=firm)
    read = None if book is None else read_book(book)
    papers, _ = make_pack_so_far(made, None, read, frozenset({PaperKey.SURVEY_FORM}))
    try:
        form.write_bytes(papers[0].content)
    except OSError as problem:
        stop(f"{form} cannot be written ({problem.strerror}): choose another file with -o.")
    click.echo(f"Survey form: {form}")
