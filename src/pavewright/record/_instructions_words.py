"""How a stranger checks a record with common tools, and without this program."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence

CHAIN_SH = r"""
before=$(printf '0%.0s' {1..64}); number=0; : > hashes.txt
while IFS= read -r line; do
  number=$((number + 1))
  case "$line" in
    *"\"before\":\"$before\""*"\"number\":$number,"*) ;;
    *) echo "entry $number does not follow the entry before it" ;;
  esac
  before=$({ printf "$(printf %s "$before" | sed 's/../\\x&/g')"; printf %s "$line"; } | sha256sum | cut -c 1-64)
  echo "$number $before" >> hashes.txt
done < <(sed '$d' record.jsonl)
echo "entries: $number, hash of the last one: $before"
case "$(tail -n 1 record.jsonl)" in
  "{\"entries\":$number,"*"\"head\":\"$before\","*) echo "the last line agrees" ;;
  *) echo "the last line does NOT agree" ;;
esac
"""

CHAIN_PY = r"""
import hashlib, json

*lines, last = open("record.jsonl", encoding="ascii", newline="\n").read().removesuffix("\n").split("\n")
sha = lambda content: hashlib.sha256(content).digest()
before, good = bytes(32), True
for number, line in enumerate(lines, 1):
    entry = json.loads(line)
    if entry["number"] != number or entry["before"] != before.hex():
        good = print("entry", number, "does not follow the entry before it")
    before = sha(before + line.encode())

def root(leaves):
    if len(leaves) < 2:
        return sha(b"\0" + leaves[0]) if leaves else sha(b"")
    half = 1 << (len(leaves) - 1).bit_length() - 1
    return sha(b"\1" + root(leaves[:half]) + root(leaves[half:]))

seal = json.loads(last)
found = (len(lines), before.hex(), root([line.encode() for line in lines]).hex())
good = good and found == (seal["entries"], seal["head"], seal["root"])
print("entries:", found[0], "hash of the last one:", found[1], "root of the tree:", found[2])
print("this record hangs together" if good else "THIS RECORD WAS CHANGED")
"""

PHOTOS_SH = "\nsha256sum --check photos.sha256\n"
_ANSWER = "openssl ts -verify -digest {digest} -in {name} -CAfile authority.pem\nopenssl ts -reply -in {name} -text"
_ALONE = (
    "openssl ts -verify -digest {digest} -in {name} -token_in -CAfile authority.pem\n"
    "openssl ts -reply -in {name} -token_in -token_out -text"
)

_TEXT = """HOW TO CHECK THIS RECORD WITHOUT THE PROGRAM THAT MADE IT

What you need: the files of the record in one folder, and either bash with sha256sum or Python 3.
Nothing is sent anywhere.

1. GET THE FILES

From the zip file: unpack it. From the PDF: save its attachments into one folder. Most readers show
them behind a paper clip; with the tools of poppler the command is:

    pdfdetach -saveall record.pdf

    record.jsonl       the record: one entry a line, and a last line that seals them
    photos.sha256      the hashes of the photos (the photos themselves come with the zip file)
    timestamp-*        tokens of a timestamp authority, where there are any
    instructions.txt   this page

2. CHECK THAT THE ENTRIES HANG TOGETHER

Each entry is one line. Its hash is the SHA-256 of 32 bytes followed by the line as it stands,
without the end of the line. The 32 bytes are the hash of the entry before; before the first entry
stand 32 bytes of zero. Each line also names the hash of the entry before it ("before"). The last
line names how many entries there are, the hash of the last one ("head") and the root of the tree of
RFC 6962 over all lines ("root").

Two ways; take one, or both. Copy what stands between the marks into a file in the folder, and run
it there.

With bash and sha256sum (run it with: bash chain.sh). It also writes every hash into hashes.txt.

--- begin chain.sh ---{chain_sh}--- end chain.sh ---

With Python 3 (run it with: python3 chain.py):

--- begin chain.py ---{chain_py}--- end chain.py ---

3. COMPARE WITH A HASH THAT YOU WERE GIVEN

This is what counts. Whoever keeps a record could write all of it anew and work out every hash
again; step 2 would then find nothing. So the hash of the last entry is given to the customer or
somebody else from time to time. If you were given one, look whether it stands in hashes.txt. If it
does, nothing up to that entry was changed, deleted, swapped or re-dated since you were given it. If
it does not, this is not the record that you were given the hash of.

4. CHECK THE PHOTOS

In the folder of the zip file. Photos that were deleted are not in the list; the record says when
that was done.

--- begin photos.sh ---{photos_sh}--- end photos.sh ---

5. CHECK TIMESTAMPS

{stamps}

6. WHAT THIS SHOWS, AND WHAT IT DOES NOT

It shows that these entries stood in this order, with these words and numbers, when a hash was given
out or stamped. The time in an entry is that of the clock of the machine that kept the record: only
a timestamp, or the day on which you were given a hash, shows that an entry existed by then. It does
not show that what somebody wrote is true, who held the staff, or that a photo shows this place. The
uncertainty of a reading is what its reader stated. Where none is stated, none is known.
"""

_NO_STAMPS = """This record holds none. With a token of a timestamp authority the hash of an entry can be shown
to have existed by a time."""
_STAMPS = """Get the certificate of the authority from the authority itself and save it as authority.pem. openssl
says whether the signature holds, and shows the time. The hash in the command is that of the entry,
as hashes.txt has it.

--- begin stamps.sh ---
{commands}
--- end stamps.sh ---"""


def instructions(stamps: Sequence[tuple[str, str, bool]]) -> str:
    """Return how to check a record.

    Args:
        stamps: For each token the name of its file, the hash that it stamps, and whether it stands in an answer.
    """
    commands = "\n".join(
        (_ANSWER if is_answer else _ALONE).format(name=name, digest=digest) for name, digest, is_answer in stamps
    )
    said = _STAMPS.format(commands=commands) if stamps else _NO_STAMPS
    return _TEXT.format(chain_sh=CHAIN_SH, chain_py=CHAIN_PY, photos_sh=PHOTOS_SH, stamps=said)
