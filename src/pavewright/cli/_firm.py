"""The commands of the firm's book: show it, write it out, bring one in, bring a price list in."""

from __future__ import annotations

import datetime as dt
import sys
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from pavewright.cli._stop import UNSOUND, stop
from pavewright.cli._where import DATA, open_kept
from pavewright.desk import EMPTY_BOOK, prices_shown, prices_taken, read_book
from pavewright.files import FileRefusedError
from pavewright.job import JobInvalid
from pavewright.units import minor_to_text

if TYPE_CHECKING:
    from pavewright.firm import FirmBook
    from pavewright.job import CatalogueItem, Material, PavingUnit
    from pavewright.store import Store

_FILE = click.Path(path_type=Path, exists=True, dir_okay=False)
_SHOWN = 20


@click.group("firm")
def firm_command() -> None:
    """Show the firm's book, write it out, bring one in, or bring in a supplier's price list.

    \b
    Example: pavewright firm show
             pavewright firm prices list.csv --supplier "Quarry Road" --take
    """  # noqa: D301 - the sign keeps click from joining lines


def _opened(data: Path | None, *, begin: bool = False) -> Store:
    """Return the store in which the book is kept; one is made where there is none and a book is brought in."""
    # the database is loaded for these commands only: the others start quicker without it
    from pavewright.store import StoreTroubleError  # noqa: PLC0415

    try:
        return open_kept(data, begin=begin)
    except StoreTroubleError as trouble:
        click.echo(str(trouble), err=True)
        sys.exit(UNSOUND)


def _read(document: str) -> FirmBook:
    try:
        return read_book(document)
    except JobInvalid as invalid:
        click.echo("This is not a firm's book that can be read:", err=True)
        for fault in invalid.faults:
            click.echo(f"  {f'{fault.path}: ' if fault.path else ''}{fault.message}", err=True)
        sys.exit(UNSOUND)


def _save(store: Store, rev: int, document: str, note: str) -> None:
    """Keep the book, unless somebody changed it meanwhile."""
    from pavewright.store import StaleBookError, StoreTroubleError  # noqa: PLC0415 - as above

    try:
        kept = store.firm.save(rev, document, note)
    except StaleBookError:
        stop("The book was changed meanwhile: ask again.")
    except StoreTroubleError as trouble:
        stop(str(trouble))
    else:
        click.echo(f"Kept as revision {kept}.")


@firm_command.command("show")
@DATA
def show_command(data: Path | None) -> None:
    """Show in a few lines what stands in the book.

    \b
    Example: pavewright firm show --data jobs.sqlite
    """  # noqa: D301 - the sign keeps click from joining lines
    store = _opened(data)
    kept = store.firm.book()
    store.close()
    if not kept.rev:
        click.echo("No book yet. Write in it at /firm, or bring one in with: pavewright firm import FILE")
        return
    book = _read(kept.document)
    sold: list[CatalogueItem | Material | PavingUnit] = [*book.rates.catalogue, *book.rates.materials, *book.units]
    without = sum(each.pack_price_minor is None for each in sold)
    click.echo(f"{book.firm.name or 'A firm without a name'}, revision {kept.rev}, in {book.currency}")
    click.echo(f"  {len(sold)} things that are bought, {without} of them without a price")
    for supplier in sorted({each.supplier for each in sold if each.supplier}):
        theirs = [each for each in sold if each.supplier == supplier]
        days = sorted(each.priced_on.isoformat() for each in theirs if each.priced_on is not None)
        dated = f", prices of {days[0]} to {days[-1]}" if days else ""
        click.echo(f"  {supplier}: {len(theirs)}{dated}")
    rates = book.rates
    loads = "nothing that takes spoil away" if rates.disposal is None else f"spoil away by {rates.disposal.kind.value}"
    click.echo(f"  {len(rates.plant)} machines and tools, {loads}, {len(rates.labour)} prices of an hour by skill")
    click.echo(f"  {len(book.people)} people, {len(book.outputs)} own outputs, {len(book.past)} entries of past jobs")


@firm_command.command("export")
@DATA
def export_command(data: Path | None) -> None:
    """Print the book as a document.

    \b
    Example: pavewright firm export > firm.json
    """  # noqa: D301 - the sign keeps click from joining lines
    store = _opened(data)
    click.echo((store.firm.book().document or EMPTY_BOOK).rstrip("\n"))
    store.close()


@firm_command.command("import")
@click.argument("file", type=_FILE)
@DATA
def import_command(file: Path, data: Path | None) -> None:
    """Put a book in the place of the present one, which stays among the revisions.

    Exit code 2: the file is no book, with every fault.

    \b
    Example: pavewright firm import firm.json
    """  # noqa: D301 - the sign keeps click from joining lines
    document = file.read_text("utf-8-sig", "replace")
    if not document.strip():
        stop(f"{file.name} is empty.")
    _read(document)
    store = _opened(data, begin=True)
    try:
        _save(store, store.firm.book().rev, document, f"brought in from {file.name}"[:200])
    finally:
        store.close()


@firm_command.command("prices")
@click.argument("file", type=_FILE)
@click.option("--supplier", required=True, help="Whose price list it is.")
@click.option(
    "--of",
    type=click.Choice(["goods", "plant", "disposal", "labour"]),
    default="goods",
    show_default=True,
    help="What it lists: goods, plant on hire, loads taken away, or labour.",
)
@click.option("--per", type=click.Choice(["hour", "day", "week"]), help="By what plant or labour is charged.")
@click.option(
    "--use",
    "uses",
    multiple=True,
    metavar="ROW=KIND",
    help="What the line in a row is, such as 3=skip, 5=plate, 7=layer or 9=cement; else as its name says.",
)
@click.option("--on", "on", default=None, help="Day of the prices, such as 2027-03-01; today where none is given.")
@click.option("--tax", type=float, help="Tax that the prices hold, in per cent.")
@click.option("--decimal", type=click.Choice([".", ","]), help="Decimal mark of the prices.")
@click.option("--per-unit", is_flag=True, help="Prices are of one unit, not of the pack.")
@click.option("--sheet", help="Sheet of the workbook.")
@click.option("--take", is_flag=True, help="Bring the prices into the book; without it they are only shown.")
@DATA
def prices_command(file: Path, data: Path | None, *, take: bool, **said: Any) -> None:  # noqa: ANN401 - words of options
    """Show what a price list (CSV or XLSX) changes in the book, or take it.

    Columns are guessed from their heads and content, and stand as they were said once for a supplier on the screen.
    Lines that cannot be read are listed with their row; the others are taken all the same. Exit code 2: nothing can
    be read, or something has to be said first.

    \b
    Example: pavewright firm prices list.xlsx --supplier "Quarry Road" --on 2027-03-01
             pavewright firm prices list.csv --supplier "Quarry Road" --tax 20 --take
             pavewright firm prices hire.csv --supplier "Ashgrove Hire" --of plant --per day --take
    """  # noqa: D301 - the sign keeps click from joining lines
    store = _opened(data, begin=take)
    try:
        kept = store.firm.book()
        asked = _asked(said)
        shown = prices_shown(kept.document, file.read_bytes(), asked)
        _tell(shown, _read(kept.document).currency)
        if take:
            uses = asked.get("uses", shown["suggested"])
            document, _ = prices_taken(kept.document, file.read_bytes(), asked | {"uses": uses})
            _save(store, kept.rev, document, f"price list of {asked['supplier']}"[:200])
    except FileRefusedError as refused:
        stop(str(refused))
    except JobInvalid as invalid:
        stop(invalid.faults[0].message)
    finally:
        store.close()


def _asked(said: dict[str, Any]) -> dict[str, Any]:
    """Return what was said of a list; what was not said is left to what is remembered."""
    named = {
        "supplier": said["supplier"],
        "of": said["of"],
        "per": said["per"],
        "uses": _uses(said["uses"]),
        "on": said["on"] or dt.datetime.now(dt.UTC).date().isoformat(),
        "tax_percent": said["tax"],
        "decimal": said["decimal"],
        "sheet": said["sheet"],
        "per_unit": said["per_unit"] or None,
    }
    return {name: value for name, value in named.items() if value is not None}


def _uses(said: tuple[str, ...]) -> dict[str, str] | None:
    """Return what lines are, by row; None where nobody said it."""
    found = {}
    for each in said:
        row, sign, kind = each.partition("=")
        if not sign or not row.strip().isdecimal() or not kind.strip():
            stop(f"--use takes a row and what its line is, such as 3=skip; not {each!r}.")
        found[row.strip()] = kind.strip()
    return found or None


def _tell(shown: dict[str, Any], currency: str) -> None:
    """Write what a list changes."""
    counts: dict[str, int] = {}
    for change in shown["changes"]:
        counts[change["kind"]] = counts.get(change["kind"], 0) + 1
    told = ", ".join(f"{count} {_WORDS[kind]}" for kind, count in counts.items())
    click.echo(f"{len(shown['lines'])} lines: {told or 'nothing changes'}")
    for change in [each for each in shown["changes"] if each["kind"] == "price"][:_SHOWN]:
        was, now = (_money(change[name], currency) for name in ("was_minor", "now_minor"))
        click.echo(f"  {change['name']}: {was} -> {now}")
    for row, kind in shown["suggested"].items():
        name = next(each["name"] for each in shown["lines"] if str(each["row"]) == row)
        click.echo(f"  {name}: plans take it as {kind.replace('_', ' ')}")
    for each in shown["bad"][:_SHOWN]:
        click.echo(f"  not taken, row {each['row']}: {each['words']}")
    if len(shown["bad"]) > _SHOWN:
        click.echo(f"  and {len(shown['bad']) - _SHOWN} more rows that are not taken")
    for words in shown["asked"]:
        click.echo(f"  to be said first: {words}")


def _money(minor: int | None, currency: str) -> str:
    return "not known" if minor is None else minor_to_text(minor, currency)


_WORDS = {
    "new": "new",
    "price": "with another price",
    "pack": "in another pack",
    "same": "the same",
    "other_pack": "sold in another pack, not taken",
    "not_listed": "not in the list any more, kept",
}
