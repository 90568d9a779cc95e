"""What stands in the README.txt of what is handed out."""

from __future__ import annotations

from dataclasses import dataclass

from pavewright.writing import Catalogue


@dataclass(frozen=True, slots=True)
class Words(Catalogue):
    """The two texts."""

    firm: str = """\
All that pavewright keeps of one firm. It is no backup: pavewright backup --whole makes one.

jobs/JOB/job.json             a job as it stands
jobs/JOB/revisions/REV.json   every revision of it
jobs/JOB/photos/              its photos
jobs/JOB/record.jsonl         its record: pavewright verify-record checks it
quotations/                   papers that links opened to customers
book.json, calendar.json      the firm's book and its calendar as they stand
money/                        bills and payments of the jobs, sums in the smallest coin
people/                       people of the firm, invitations, devices, tokens, who did what
tables/                       every other table: a row a line of JSON; flat ones as CSV too
manifest.json                 rows of each table; bytes and SHA-256 of each file

In CSV a cell that a spreadsheet might take for a formula begins with ' here. The JSON holds it as it is.

Left out, because whoever has it could come in or sign as the firm:
  passwords, keys of passkeys, secrets of codes, codes on paper; digests of tokens, links, feeds and devices;
  secrets of hooks.
Left out, because it is worked out again: questions and answers of long runs, plans that are kept to be quick.
Left out, because it is not the firm's: failed tries to sign in, other firms, what was done in no firm.
"""
    person: str = """\
All that pavewright keeps of one person.

profile.json     name, sign-in, the firms with role and rights
sign_ins.csv     devices on which he is signed in, with times
passkeys.csv     passkeys by name, with times
tokens.csv       tokens of programs by name, with what they may do
audit.csv        what he did with people, rights and keys
revisions.csv    revisions of jobs that he made: job, time, note
mentions.csv     in how many rows of which table of his firms his name or sign-in stands
manifest.json    rows of each table; bytes and SHA-256 of each file

In CSV a cell that a spreadsheet might take for a formula begins with ' here.

Left out, because whoever has it could come in: password, keys of passkeys, secret of codes, codes on paper,
  digests of sign-ins and tokens.
Left out, because it speaks of others: to whom something was done, jobs themselves, records that name him.
"""


WORDS = Words()
"""In English."""
