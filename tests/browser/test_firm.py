"""The firm's book on a phone: from an empty store a price list comes in, and the price of a job uses it."""

from __future__ import annotations

import pytest
from kept import wait_kept
from hand import PHONE
from playwright.sync_api import expect
from served import Served

pytestmark = pytest.mark.browser

_LIST = """Price list of the year;;;
Code;Description;Unit;Price ex VAT
C1;Cement ordinary;25 kg bag;7.20
S1;Sharp sand washed;bulk bag 850 kg;52.00
K1;Kerb grey;each;3.99
X1;Something;bag;3.00
"""


@pytest.fixture(scope="module")
def own(tmp_path_factory):
    """A server of its own: what stands in its book changes the prices of every job."""
    server = Served(tmp_path_factory.mktemp("firm") / "jobs.sqlite")
    yield server
    server.stop()


@pytest.fixture
def phone(chromium):
    context = chromium.new_context(**PHONE)
    opened = context.new_page()
    faults = []
    opened.on("pageerror", lambda error: faults.append(str(error)))
    yield opened
    context.close()
    assert faults == []


def _without_prices(served) -> str:
    """Make a job like the example whose cement and sand have no price, and return its id."""
    document = served.call("GET", f"/api/jobs/{served.demo}")["document"]
    document["identity"] |= {"title": "Nothing priced", "invented": False}
    for each in document["rates"]["materials"]:
        if each["key"] in {"cement", "sharp_sand"}:
            each.pop("pack_price_minor", None)
    return served.call("POST", "/api/jobs", {"document": document})["id"]


def _prices_of(served, job: str) -> dict[str, int]:
    document = served.call("GET", f"/api/jobs/{job}")["document"]
    cost = served.call("POST", "/api/plan?parts=cost", document)["plan"]["cost"]
    return {line["description"]: line["rate_minor"] for line in cost["lines"]}


def test_a_price_list_comes_in_on_a_phone_and_a_job_uses_it(own, phone, tmp_path):
    job = _without_prices(own)
    before = _prices_of(own, job)
    phone.goto(f"{own.address}/")
    phone.get_by_role("link", name="Firm", exact=True).click()
    phone.get_by_role("link", name="Prices", exact=True).click()
    expect(phone.get_by_text("No price yet")).to_be_visible(timeout=30_000)
    (tmp_path / "list.csv").write_text(_LIST, "utf-8")
    phone.set_input_files("input[type=file]", tmp_path / "list.csv")
    phone.get_by_label("Whose price list is it?").fill("Quarry Road")
    phone.get_by_label("Prices of which day?").focus()
    expect(phone.get_by_text("Row 6: Sold by 'bag'")).to_be_visible(timeout=30_000)
    assert own.call("GET", "/api/firm")["rev"] == 0  # nothing is taken before it is said
    assert phone.evaluate("document.documentElement.scrollWidth") <= PHONE["viewport"]["width"]
    phone.get_by_role("button", name="Take 3 prices").click()
    expect(phone.get_by_text("used as cement · Quarry Road · C1")).to_be_visible(timeout=30_000)
    after = _prices_of(own, job)
    assert sorted(set(after.values()) - set(before.values())) == [720, 5200]
    phone.goto(f"{own.address}/jobs/{job}#price")
    expect(phone.get_by_role("link", name="Prices of the firm")).to_be_attached(timeout=60_000)


def test_a_price_is_edited_in_its_row_and_found_again(own, phone):
    phone.goto(f"{own.address}/firm#prices")
    phone.get_by_role("button", name="+ price").click()
    phone.get_by_label("What is it called?").fill("Spacers 5 mm")
    phone.get_by_role("button", name="Add", exact=True).click()
    phone.get_by_label("Price of Spacers 5 mm").fill("4.75")
    phone.keyboard.press("Tab")
    expect(phone.locator("#saved")).to_have_text("Kept")
    kept = own.call("GET", "/api/firm")["document"]["rates"]["catalogue"]
    assert [each["pack_price_minor"] for each in kept if each["key"] == "spacers_5_mm"] == [475]
    phone.reload()
    phone.get_by_label("Find a price").fill("spacers")
    expect(phone.get_by_label("Price of Spacers 5 mm")).to_have_value("4.75")


def test_what_two_write_at_once_is_both_kept(own, phone):
    phone.goto(f"{own.address}/firm#firm")
    name = phone.get_by_label("Name", exact=True)
    expect(name).to_be_visible(timeout=30_000)
    there = own.call("GET", "/api/firm")
    there["document"].setdefault("firm", {})["tax_number"] = "GB 1"
    own.call("PUT", "/api/firm", {"rev": there["rev"], "document": there["document"], "note": "elsewhere"})
    name.fill("Stone and Daughter")
    phone.keyboard.press("Tab")
    expect(phone.locator("#saved")).to_have_text("Kept")
    kept = own.call("GET", "/api/firm")["document"]["firm"]
    assert (kept["name"], kept["tax_number"]) == ("Stone and Daughter", "GB 1")


def test_a_field_that_cannot_be_kept_says_so_beside_it(own, phone):
    phone.goto(f"{own.address}/firm#firm")
    currency = phone.get_by_label("Currency")
    expect(currency).to_be_visible(timeout=30_000)
    before = own.call("GET", "/api/firm")["rev"]
    currency.fill("pounds")
    phone.keyboard.press("Tab")
    expect(phone.locator("#trouble")).to_contain_text("Not kept yet")
    assert own.call("GET", "/api/firm")["rev"] == before
    currency.fill("GBP")
    phone.keyboard.press("Tab")
    expect(phone.locator("#saved")).to_have_text("Kept")


def test_no_word_of_a_price_list_is_cut_in_two_on_a_phone(own, phone, tmp_path):
    rows = ["Code;Name;Pack;Price;Kind", "CEM-ORDINARY-25;Cementmortar ordinary;25 kg;7.20;Additives"]
    (tmp_path / "list.csv").write_text("\n".join(rows), "utf-8")
    phone.goto(f"{own.address}/firm#prices")
    phone.set_input_files("input[type=file]", tmp_path / "list.csv")
    phone.get_by_label("Whose price list is it?").fill("Quarry Road")
    phone.get_by_label("Prices of which day?").focus()
    phone.get_by_role("button", name="Take").wait_for(timeout=30_000)
    read = phone.locator("details", has_text="How it is read").first
    read.evaluate("details => { details.open = true; }")
    phone.wait_for_timeout(300)
    broken = phone.evaluate(
        """() => [...document.querySelectorAll(".sample td")].flatMap((cell) => {
          const text = document.createRange(); text.selectNodeContents(cell);
          const lines = new Set([...text.getClientRects()].map((one) => Math.round(one.top))).size;
          return lines > cell.textContent.trim().split(/\\s+/).length ? [cell.textContent] : [];
        })"""
    )
    assert broken == []
    assert phone.evaluate("document.documentElement.scrollWidth") <= PHONE["viewport"]["width"]


_PLANT = """Code,Machine,Day,Week
M1,Micro excavator,£ 115.00,345.00
M9,Site heater,12.00,40.00
"""
_FLAGS = """Code,Description,Unit,Pack,Price
P1,Flag smooth 600x600,each,20,238.00
"""


def _bring(page, path, text, supplier, of):
    path.write_text(text, "utf-8")
    page.set_input_files("input[type=file][accept*=csv]", path)
    page.get_by_label("Whose price list is it?").fill(supplier)
    page.keyboard.press("Tab")
    page.get_by_label("What does it list?").select_option(of)


def test_plant_and_a_new_paving_unit_come_from_lists_on_a_phone_by_keys(own, phone, tmp_path):
    phone.goto(f"{own.address}/firm#prices")
    expect(phone.get_by_label("Find a price")).to_be_visible(timeout=30_000)
    _bring(phone, tmp_path / "plant.csv", _PLANT, "Ashgrove", "plant")
    kind = phone.get_by_label("Site heater", exact=False)
    expect(kind).to_have_value("", timeout=30_000)
    kind.focus()
    phone.keyboard.type("Oth")
    expect(phone.get_by_role("button", name="Take 2 prices")).to_be_visible(timeout=30_000)
    expect(phone.get_by_label("Site heater", exact=False)).to_be_focused()
    phone.get_by_role("button", name="Take 2 prices").press("Enter")
    expect(phone.get_by_text("2 prices taken")).to_be_visible(timeout=30_000)
    plant = own.call("GET", "/api/firm")["document"]["rates"]["plant"]
    assert [(each["key"], each["day_price_minor"]) for each in plant] == [("excavator", 11500), ("other", 1200)]

    phone.reload()
    expect(phone.get_by_label("Find a price")).to_be_visible(timeout=30_000)
    _bring(phone, tmp_path / "flags.csv", _FLAGS, "Wold", "goods")
    phone.get_by_text("Paving units (1 line may be one)").press("Enter")
    phone.get_by_label("Flag smooth 600x600").press("Space")
    expect(phone.get_by_label("Thickness, mm")).to_be_visible(timeout=30_000)
    assert phone.get_by_label("Length, mm").count() == 0  # its name says it
    phone.get_by_label("Thickness, mm").fill("38")
    phone.keyboard.press("Tab")
    expect(phone.get_by_label("Weight of one, kg")).to_have_attribute("placeholder", "about 31.5 in concrete")
    phone.get_by_label("Weight of one, kg").fill("31,5")
    phone.keyboard.press("Tab")
    take = phone.get_by_role("button", name="Take 1 price")
    expect(take).to_be_enabled(timeout=30_000)
    assert phone.evaluate("document.documentElement.scrollWidth") <= PHONE["viewport"]["width"]
    take.press("Enter")
    expect(phone.get_by_text("1 price taken")).to_be_visible(timeout=30_000)
    (unit,) = own.call("GET", "/api/firm")["document"]["units"]
    assert (unit["thickness_mm"], unit["kg_each"], unit["per_pack"], unit["pack_price_minor"]) == (38, 31.5, 20, 23800)


def test_an_earlier_book_is_shown_and_brought_back(own, phone):
    there = own.call("GET", "/api/firm")
    there["document"].setdefault("firm", {})["tax_number"] = was = "GB 66"
    own.call("PUT", "/api/firm", {"rev": there["rev"], "document": there["document"], "note": "a number"})
    there = own.call("GET", "/api/firm")
    there["document"]["firm"]["tax_number"] = "GB 77"
    own.call("PUT", "/api/firm", {"rev": there["rev"], "document": there["document"], "note": "another number"})
    phone.goto(f"{own.address}/firm#earlier")
    phone.get_by_role("button", name=f"Compare revision {there['rev']} with now").click(timeout=30_000)
    expect(phone.get_by_text("GB 77")).to_be_visible()
    assert phone.evaluate("document.documentElement.scrollWidth") <= PHONE["viewport"]["width"]
    phone.get_by_role("button", name=f"Bring back revision {there['rev']}").click()
    expect(phone.get_by_role("button", name=f"Compare revision {there['rev'] + 1} with now")).to_be_visible()
    now = own.call("GET", "/api/firm")
    assert now["document"].get("firm", {}).get("tax_number", "") == was
    assert now["rev"] == there["rev"] + 2


def test_a_job_takes_a_unit_of_the_book_and_leaves_its_price_there(own, phone):
    flag = {
        "name": "Flag of the firm",
        "length_mm": 600,
        "width_mm": 600,
        "thickness_mm": 40,
        "kg_each": 33,
        "per_pack": 20,
    }
    there = own.call("GET", "/api/firm")
    units = [*there["document"].get("units", []), flag | {"pack_price_minor": 23800, "supplier": "Wold"}]
    own.call("PUT", "/api/firm", {"rev": there["rev"], "document": there["document"] | {"units": units}, "note": ""})
    job = own.patio("With a flag of the firm")
    phone.goto(f"{own.address}/jobs/{job}#paving")
    phone.locator("summary", has_text="Slabs, blocks, setts").click(timeout=30_000)
    phone.get_by_label("Of the firm’s book").select_option("Flag of the firm", timeout=30_000)
    phone.get_by_role("button", name="Take it into the job").click()
    expect(phone.get_by_role("button", name="Undo", exact=False).first).to_be_enabled()
    taken = wait_kept(phone, own, job, lambda job: any(each["name"] == "Flag of the firm" for each in job["units"]))[
        "units"
    ]
    (unit,) = [each for each in taken if each["name"] == "Flag of the firm"]
    assert "pack_price_minor" not in unit
    assert "supplier" not in unit
