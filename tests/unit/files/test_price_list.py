"""Price lists: what is read is right, what cannot be read says so, and no other line is lost by it."""

from __future__ import annotations

import io
import zipfile

import pytest
import xlsxwriter

from pavewright.files import FileRefusedError, PriceList, file_told, price_list_told, read_price_list
from pavewright.files._price_amounts import NoAmountError, amount_in_name, decimal_mark, number_told, sold_by
from pavewright.job import PackUnit

_PLAIN = """Code,Description,Unit,Price ex VAT
C1,Cement 25 kg,25 kg bag,7.20
S1,"Sharp sand, washed",tonne,"1,234.50"
F1,Membrane,m2,0.85
"""


def _told(found: PriceList) -> list[tuple[str, str, float, str, int]]:
    return [(each.code, each.name, each.pack_amount, each.pack_unit.value, each.price_minor) for each in found.lines]


_EXPECTED = [
    ("C1", "Cement 25 kg", 25.0, "kg", 720),
    ("S1", "Sharp sand, washed", 1000.0, "kg", 123_450),
    ("F1", "Membrane", 1.0, "m2", 85),
]


def test_a_plain_list_is_read() -> None:
    found = read_price_list(_PLAIN.encode())
    assert _told(found) == _EXPECTED
    assert found.bad == ()
    assert found.questions == ()


@pytest.mark.parametrize("parter", [";", "\t", "|"])
@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
def test_separators_and_encodings(parter: str, encoding: str) -> None:
    rows = [line.split(",") for line in ("Code,Name,Unit,Price", "K1,Café gravel,m³,12.50", "K2,Kerb,each,4.00")]
    text = "\r\n".join(parter.join(row) for row in rows)
    found = read_price_list(text.encode(encoding))
    assert _told(found) == [("K1", "Café gravel", 1.0, "m3", 1250), ("K2", "Kerb", 1.0, "each", 400)]


def test_a_decimal_comma_holds_for_the_whole_column() -> None:
    text = "Nr;Bezeichnung;Einheit;Preis\n1;Splitt;t;1.234,50 €\n2;Sand;t;2,000\n3;Vlies;m2;0,85\n"
    found = read_price_list(text.encode())
    assert [each.price_minor for each in found.lines] == [123_450, 200, 85]
    assert found.columns.decimal == ","


def test_a_comma_before_the_pence_is_never_one_that_parts_thousands() -> None:
    text = 'Name,Unit,Price\nOne,each,"1,234.50"\nTwo,each,"52,00"\nThree,each,"12.50"\nFour,each,"3.5,0"\n'
    found = read_price_list(text.encode(), {"decimal": "."})
    assert [(each.name, each.price_minor) for each in found.lines] == [("One", 123_450), ("Three", 1250)]
    assert [row for row, _ in found.bad] == [3, 5]
    assert number_told("1,25,000.50", ".") == 125_000.5
    assert number_told("1'234,5", ",") == 1234.5


def test_a_column_with_one_number_is_not_the_price() -> None:
    head = "Ref;Description;Unit of sale;{};carr.\n"
    rows = "A;Sharp sand;tonne;£54.50;35.00\nB;Kerb;each;9.80;\nC;Ballast;tonne;POA;\nD;Edging;each;£ 5.95;\n"
    for price in ("Nett £", "£"):
        found = read_price_list((head.format(price) + rows).encode())
        assert [(each.name, each.price_minor) for each in found.lines] == [
            ("Sharp sand", 5450),
            ("Kerb", 980),
            ("Edging", 595),
        ]


def test_a_comma_that_may_be_either_is_asked() -> None:
    text = "Name;Unit;Price\nOne;each;1,234\nTwo;each;2,500\n"
    assert read_price_list(text.encode()).questions
    said = read_price_list(text.encode(), {"decimal": ","})
    assert said.questions == ()
    assert [each.price_minor for each in said.lines] == [123, 250]


def test_tax_in_the_prices_is_taken_off_and_a_head_that_says_so_is_asked() -> None:
    text = "Name,Unit,Price inc VAT\nOne,each,12.00\n"
    assert any("tax" in words for words in read_price_list(text.encode()).questions)
    said = read_price_list(text.encode(), {"tax_percent": 20})
    assert [each.price_minor for each in said.lines] == [1000]
    assert said.questions == ()


def test_prices_of_a_unit_become_prices_of_the_pack() -> None:
    text = "Name,Unit,Price\nSand,25 kg bag,0.0844\n"
    line = read_price_list(text.encode(), {"per_unit": True}).lines[0]
    assert line.price_minor == 211


def test_bad_lines_are_reported_with_their_row_and_the_good_ones_kept() -> None:
    rows = [
        *("Code,Name,Unit,Price", "A,Good,each,1.00", "B,No price,each,", "C,Zero,each,0.00", "D,Minus,each,-4"),
        *("E,Much,each,1e308", "F,None,each,NaN", "G,Formula,each,=1+1", "H,Bag,bag,3.00", "A,Twice,each,2.00"),
        *("Edgings,,,", ",,each,2.00", "I,On application,each,POA", "J,Good too,each,2.00"),
    ]
    found = read_price_list("\n".join(rows).encode())
    assert [each.code for each in found.lines] == ["A", "J"]
    assert [row for row, _ in found.bad] == [3, 4, 5, 6, 7, 8, 9, 10, 12, 13]
    assert found.headings == (11,)
    assert all(words.endswith(".") for _, words in found.bad)
    assert len(found.lines) + len(found.bad) + len(found.headings) == len(rows) - 1


def test_a_quote_that_does_not_close_costs_its_own_line_alone() -> None:
    text = 'Code,Name,Unit,Price\nA,"Open,each,1.00\nB,Closed,each,2.00\nC,4" pipe,m,3.00\n'
    found = read_price_list(text.encode())
    assert [each.code for each in found.lines] == ["B", "C"]
    assert [row for row, _ in found.bad] == [2]


def test_words_of_a_name_stay_words() -> None:
    text = "Code,Name,Unit,Price\nA,<script>alert(1)</script>,each,1.00\nB,'=SUM(A1),each,1.00\n"
    assert [each.name for each in read_price_list(text.encode()).lines] == ["<script>alert(1)</script>", "=SUM(A1)"]


def test_columns_without_heads_are_told_by_what_stands_in_them() -> None:
    text = "10001;Sharp sand washed;tonne;45.50\n10002;Cement ordinary;25 kg;7.20\n10003;Kerb grey;each;3.99\n"
    found = read_price_list(text.encode())
    assert [(each.name, each.price_minor) for each in found.lines][0] == ("Sharp sand washed", 4550)


def test_columns_that_a_person_named_hold_by_head_or_place() -> None:
    text = "A,B,C,D\nx,Sand,9.00,45.50\n"
    by_place = read_price_list(text.encode(), {"columns": {"name": 1, "price": 3}})
    assert by_place.lines[0].price_minor == 4550
    two = "Code,Name,Price list,Your price\nx,Sand,9.00,8.00\n"
    by_head = read_price_list(two.encode(), {"columns": {"name": "Name", "price": "Your price"}})
    assert by_head.lines[0].price_minor == 800


def _workbook(rows: list[list[str | float]], sheets: tuple[str, ...] = ("Prices",)) -> bytes:
    stream = io.BytesIO()
    book = xlsxwriter.Workbook(stream, {"strings_to_formulas": False, "strings_to_urls": False})
    for name in sheets:
        sheet = book.add_worksheet(name)
        if name == sheets[-1]:
            for number, row in enumerate(rows):
                sheet.write_row(number, 0, row)
    book.close()
    return stream.getvalue()


def test_a_workbook_is_read_from_the_first_sheet_that_holds_something() -> None:
    rows: list[list[str | float]] = [
        ["List of the year"],
        [],
        ["Code", "Description", "Unit", "Price"],
        [1001.0, "=Cement", "25 kg bag", 7.2],
        ["S1", "Sharp sand", "tonne", 45],
    ]
    found = read_price_list(_workbook(rows, ("Cover", "Prices")))
    assert found.sheet == "Prices"
    assert _told(found) == [("1001", "=Cement", 25.0, "kg", 720), ("S1", "Sharp sand", 1000.0, "kg", 4500)]
    assert found.lines[0].row == 4


def test_an_archive_that_grows_is_not_opened() -> None:
    stream = io.BytesIO()
    with zipfile.ZipFile(stream, "w", zipfile.ZIP_DEFLATED) as archive:
        archive.writestr("xl/workbook.xml", "<workbook/>")
        archive.writestr("xl/worksheets/sheet1.xml", b" " * 50_000_000)
    with pytest.raises(FileRefusedError, match="far larger"):
        read_price_list(stream.getvalue())


@pytest.mark.parametrize("cut", [30, 900, -40])
def test_a_workbook_that_is_cut_short_is_refused(cut: int) -> None:
    with pytest.raises(FileRefusedError):
        read_price_list(_workbook([["Name", "Price"], ["One", 1.0]])[:cut])


@pytest.mark.parametrize("content", [b"", b"\n\n", b"\x00\x01\x02", b"\xd0\xcf\x11\xe0old"])
def test_what_is_no_list_is_refused(content: bytes) -> None:
    with pytest.raises(FileRefusedError):
        read_price_list(content)


def test_a_list_of_five_thousand_lines_is_read_whole_and_apart() -> None:
    lines = "\n".join(f"A{each},Thing {each},each,{each / 100:.2f}" for each in range(1, 5001))
    content = f"Code,Name,Unit,Price\n{lines}\n".encode()
    told = file_told(content, {"kind": "prices"})
    assert len(told["lines"]) == 5000
    assert told == price_list_told(read_price_list(content))


@pytest.mark.parametrize(
    ("words", "amount", "unit"),
    [
        ("25 kg bag", 25, PackUnit.KG),
        ("25kg", 25, PackUnit.KG),
        ("bulk bag 850 kg", 850, PackUnit.KG),
        ("per tonne", 1000, PackUnit.KG),
        ("m²", 1, PackUnit.M2),
        ("sq m", 1, PackUnit.M2),
        ("roll of 50 m2", 50, PackUnit.M2),
        ("5 l", 5, PackUnit.LITRE),
        ("pack of 20", 20, PackUnit.EACH),
        ("3 m length", 3, PackUnit.M),
        ("EA", 1, PackUnit.EACH),
    ],
)
def test_units_of_sale(words: str, amount: float, unit: PackUnit) -> None:
    found = sold_by(words)
    assert found is not None
    assert (float(found[0]), found[1]) == (amount, unit)


@pytest.mark.parametrize("words", ["bag", "pallet", "20 x 3 m", "600x600", "load", ""])
def test_words_that_say_no_amount(words: str) -> None:
    assert sold_by(words) is None


def test_an_amount_of_a_name_is_taken_where_it_says_one() -> None:
    assert amount_in_name("Cement 25 kg") is not None
    assert amount_in_name("Bag 25 kg of 2 kg") is None
    assert amount_in_name("Slab 600x600x38") is None


def test_money() -> None:
    assert number_told("£ 1,234.56", ".") == number_told("1.234,56 €", ",")
    assert number_told("1 234,5", ",") == number_told("1234.5", ".")
    with pytest.raises(NoAmountError):
        number_told("12.3.4", ".")
    assert decimal_mark(["1,234", "12,5"]) == ","
    assert decimal_mark(["1,234"]) == ""


@pytest.mark.parametrize(("currency", "minor"), [("GBP", 1250), ("JPY", 13), ("KWD", 12_500)])
def test_prices_are_kept_in_the_smallest_unit_of_their_money(currency: str, minor: int) -> None:
    text = "Name,Unit,Price\nKerb,each,12.50\n"
    assert read_price_list(text.encode(), {"currency": currency}).lines[0].price_minor == minor
