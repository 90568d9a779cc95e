"""The same fact is the same on every paper: each is read out of each paper by itself and held side by side.

A fact is a function that gives, paper by paper, what that paper says. Papers that say the same in other roundings are
brought to the coarsest one first. What a paper does not say at all counts as saying NOTHING, and fails.
"""

from __future__ import annotations

import csv
import datetime as dt
import functools
import io
import json
import math
import re
from dataclasses import replace

import ezdxf
import icalendar
import openpyxl
import pypdf
import pytest

from pavewright.cli._told import plan_lines
from pavewright.papers._calendar import programme_calendar
from pavewright.papers._tables import set_out_points
from pavewright.papers._words import amount
from pavewright.papers._workbook import cost_workbook
from pavewright.pipeline import PlanSoFar, Room

JOBS = (
    "circle_court", "curved_path", "front_drive", "gully_yard", "l_terrace", "mixed_patio",
    "terrace_over_lawn", "side_path",
)  # fmt: skip
NOTHING = "NOTHING"
THIN = "\u202f"
"""Between thousands."""
COINS = {"GBP": "£", "EUR": "€", "USD": "$"}
GRID_MM = 0.1


def _so_far(made):
    """Return a whole plan as one that goes as far as what is known."""
    rooms = {room.value: getattr(made, room.value) for room in Room if room is not Room.LABOUR}
    return PlanSoFar(
        made.job, made.edition, **rooms, labour=made.cost.labour, findings=made.findings, missing=(), faults=()
    )


class Papers:
    """The papers of a job, read."""

    def __init__(self, made, papers):
        self.made, self.papers = made, papers
        self.json = json.loads(papers["plan.json"])

    @functools.cached_property
    def reported(self):
        return " ".join(" ".join(plan_lines(_so_far(self.made))).replace(THIN, ",").split())

    def text(self, name):
        return _text(self.papers[name])

    def after(self, name, before, pattern):
        """Return what follows some words on a PDF; NOTHING where it is not there."""
        text = self.reported if name == "command line" else self.text(name)
        found = re.search(re.escape(before) + r"\s*" + f"({pattern})", text)
        return NOTHING if found is None else found.group(1).replace(",", "")

    @functools.cached_property
    def cost_rows(self):
        return Book(self.papers["cost.xlsx"]).rows("Cost")

    @functools.cached_property
    def item_rows(self):
        return Book(self.papers["quantities.xlsx"]).rows("Quantities")

    @functools.cached_property
    def priced_item_rows(self):
        return Book(self.papers["cost.xlsx"]).rows("Quantities")

    def book(self, label, column):
        return next((row[column] for row in self.cost_rows if row[0] == label), NOTHING)

    @functools.cached_property
    def days(self):
        """Days on which somebody is on site, of the calendar."""
        events = icalendar.Calendar.from_ical(self.papers["programme.ics"]).walk("VEVENT")
        return sorted({event.decoded("DTSTART").date() for event in events if str(event.get("TRANSP")) == "OPAQUE"})

    @functools.cached_property
    def points(self):
        return list(csv.DictReader(io.StringIO(self.papers["set-out-points.csv"].decode("utf-8"))))

    @functools.cached_property
    def dxf(self):
        space = ezdxf.read(io.StringIO(self.papers["drawings.dxf"].decode("utf-8"))).modelspace()
        return [entity.dxf.text for entity in space if entity.dxftype() == "TEXT"]


@functools.cache
def _text(content):
    pages = [page.extract_text() for page in pypdf.PdfReader(io.BytesIO(content)).pages]
    return " ".join(" ".join(pages).replace(THIN, ",").split())


class Book:
    """The formulas of a workbook worked out from its numbers."""

    def __init__(self, content):
        self._book = openpyxl.load_workbook(io.BytesIO(content))

    def rows(self, sheet):
        return [[self._value(sheet, cell.coordinate) for cell in row] for row in self._book[sheet].iter_rows()]

    def _value(self, sheet, place):
        held = self._book[sheet][place].value
        if not (isinstance(held, str) and held.startswith("=")):
            return held
        words = re.sub(r"(?:(\w+)!)?\b([A-Z])(\d+)(?::[A-Z](\d+))?", lambda found: self._number(sheet, found), held[1:])
        names = {"SUM": sum, "ROUND": lambda v, n: math.floor(v * 10**n + 0.5 + 1e-9) / 10**n}
        return eval(words, {}, names | {"ROUNDUP": lambda v, n: math.ceil(v * 10**n) / 10**n})

    def _number(self, sheet, found):
        name, column, first, last = found.groups()
        cells = [
            self._value(name or sheet, f"{column}{row}") or 0.0 for row in range(int(first), int(last or first) + 1)
        ]
        return repr(cells if last else float(cells[0]))


def _money(minor):
    return f"{minor / 100:.2f}"


def _day(day):
    return f"{day:%a} {day.day} {day:%b %Y}"


DATE = r"\w{3} \d{1,2} \w{3} \d{4}"
MONEY = r"[\d,]+\.\d\d"


def price_with_tax(papers):
    coin = COINS[papers.json["job"]["identity"]["currency"]]
    return {
        "plan.json": _money(papers.json["cost"]["total_minor"]),
        "quotation.pdf": papers.after("quotation.pdf", f"To pay {coin}", MONEY),
        "job-pack.pdf, front": papers.after("job-pack.pdf", f" Price {coin}", MONEY),
        "job-pack.pdf, price": papers.after("job-pack.pdf", f"To pay {coin}", MONEY),
        "cost-sheet.pdf": papers.after("cost-sheet.pdf", f" Price {coin}", MONEY),
        "cost.xlsx": f"{papers.book('To pay', 4):.2f}",
        "command line": papers.after("command line", f" Price {coin}", MONEY),
    }


def price_before_tax(papers):
    coin = COINS[papers.json["job"]["identity"]["currency"]]
    net = next(row[4] for row in papers.cost_rows if str(row[0]).startswith("Price before tax"))
    return {
        "plan.json": _money(papers.json["cost"]["net_minor"]),
        "quotation.pdf": papers.after("quotation.pdf", f"Before tax {coin}", MONEY),
        "job-pack.pdf": papers.after("job-pack.pdf", f"Before tax {coin}", MONEY),
        "cost-sheet.pdf": papers.after("cost-sheet.pdf", f"Price before tax {coin}", MONEY),
        "cost.xlsx": f"{net:.2f}",
    }


def days_on_hire(papers):
    plant, hires = papers.json["job"]["rates"].get("plant", []), papers.json["programme"]["hires"]
    names = [plant[int(hire["key"].rsplit(".", 1)[1]) - 1]["name"] for hire in hires]
    sheet = papers.after("job-pack.pdf", "Plant on hire", r".*?(?= task from to)")
    by_sheet = [papers.after("cost-sheet.pdf", name, r"[\d.]+(?= days?)") for name in names]
    return {
        "plan.json": [f"{hire['days']:g}" for hire in hires],
        "job-pack.pdf": re.findall(r"([\d.]+) days?", sheet),
        "cost-sheet.pdf": by_sheet,
        "cost.xlsx": [f"{row[2]:g}" for row in papers.cost_rows if row[1] == "plant"],
    }


def first_and_last_day(papers):
    start, finish = (dt.date.fromisoformat(papers.json["programme"][name]) for name in ("start", "finish"))
    span = f"{DATE} to {DATE}"
    return {
        "plan.json": f"{_day(start)} to {_day(finish)}",
        "job-pack.pdf, front": papers.after("job-pack.pdf", "loose On site", span)
        if papers.json["earthworks"]["areas"]
        else papers.after("job-pack.pdf", "On site", span),
        "job-pack.pdf, programme": papers.after("job-pack.pdf", "Programme On site", span),
        "quotation.pdf": papers.after("quotation.pdf", "When •", span),
        "programme.ics": f"{_day(papers.days[0])} to {_day(papers.days[-1])}",
    }


def days_on_site(papers):
    return {
        "plan.json": str(papers.json["programme"]["site_days"]),
        "programme.ics": str(len(papers.days)),
        "job-pack.pdf": papers.after("job-pack.pdf", "Programme On site", rf"{DATE} to {DATE}: \d+").rsplit(" ", 1)[-1],
        "command line": papers.after("command line", f"{_day(papers.made.programme.finish)}, ", r"\d+"),
    }


def day_to_walk_on(papers):
    return {
        "plan.json": _day(dt.date.fromisoformat(papers.json["programme"]["foot_ready"])),
        "job-pack.pdf": papers.after("job-pack.pdf", "Walk on it from", DATE),
        "quotation.pdf": papers.after("quotation.pdf", "Keep off until", DATE),
    }


def _volume(papers, key, words):
    item = next((each for each in papers.json["quantities"]["items"] if each["key"] == key), None)
    row = next((each for each in papers.item_rows if each[0] == words), None)
    return {
        "plan.json, items": NOTHING if item is None else f"{item['net']:.2f}",
        "quantities.xlsx": NOTHING if row is None else f"{row[2]:.2f}",
        "job-pack.pdf": papers.after("job-pack.pdf", words, r"[\d,]+\.\d\d(?= m³)"),
    }


def dug(papers):
    found = _volume(papers, "dig", "Dig to formation, measured in the ground")
    found["plan.json, earthworks"] = f"{papers.json['earthworks']['cut_m3']:.2f}"
    return found


def dug_on_the_front(papers):
    dig = f"{papers.json['earthworks']['cut_m3']:.1f}"
    return {
        "plan.json": dig,
        "job-pack.pdf": papers.after("job-pack.pdf", " Dig", r"[\d,]+\.\d(?= m³ in the ground)"),
        "command line": papers.after("command line", " Dig", r"[\d,]+\.\d(?= m³ in the ground)"),
    }


def filled(papers):
    if papers.json["earthworks"]["fill_m3"] < 0.005:
        return {"plan.json": "0", "quantities.xlsx": str(sum("Fill under" in str(row[0]) for row in papers.item_rows))}
    found = _volume(papers, "fill", "Fill under formation in layers, compacted")
    found["plan.json, earthworks"] = f"{papers.json['earthworks']['fill_m3']:.2f}"
    return found


def areas(papers):
    laid = papers.json["laying"]["areas"]
    return {
        "plan.json": [f"{each['paved_m2'] + each['joint_m2']:.2f}" for each in laid],
        "job-pack.pdf": [papers.after("job-pack.pdf", f" {each['area']}", r"[\d,]+\.\d\d(?= m², )") for each in laid],
    }


def areas_for_the_customer(papers):
    laid = papers.json["laying"]["areas"]
    return {
        "plan.json": [f"{each['paved_m2'] + each['joint_m2']:.1f}" for each in laid],
        "quotation.pdf": [
            papers.after("quotation.pdf", f"• {each['area']}:", r"[\d,]+\.\d(?= m² of)") for each in laid
        ],
    }


def pieces(papers):
    laid = papers.json["laying"]["areas"]
    rows = Book(papers.papers["quantities.xlsx"]).rows("Cuts")
    front = [papers.after("job-pack.pdf", f" {each['area']}", r"[\d,.]+ m², \d+ whole and \d+") for each in laid]
    return {
        "plan.json": [f"{each['whole']} {each['cut']}" for each in laid],
        "job-pack.pdf": [" ".join(re.findall(r"(\d+)(?: whole|$)", words)) for words in front],
        "quantities.xlsx": [f"{each['whole']} {sum(row[0] == each['area'] for row in rows)}" for each in laid],
    }


def _bought(papers):
    """Give the order of everything that comes in whole packs."""
    return [
        item
        for item in papers.json["quantities"]["items"]
        if re.search(r"(pack|bag|skip|grab|roll|of \d)", item["order_unit"])
        and item["ordered"]
        and float(item["ordered"]).is_integer()
    ]


def packs_ordered(papers):
    bought = _bought(papers)
    rows = {(row[0], row[6]): row[5] for row in papers.item_rows if len(row) > 6}
    return {
        "plan.json": [f"{item['description']}: {item['ordered']:g}" for item in bought],
        "quantities.xlsx": [
            f"{item['description']}: {rows.get((item['description'], item['order_unit']), -1.0):g}" for item in bought
        ],
        "job-pack.pdf": [
            f"{item['description']}: {_ordered_on_the_sheet(papers, item)}" for item in bought
        ],
    }  # fmt: skip


def _ordered_on_the_sheet(papers, item):
    text = papers.text("job-pack.pdf")
    text = text[text.index("item net + % with it range order of kg") :]
    called = item["ordered_words"].split(" ", 1)[1]
    row = re.search(re.escape(item["description"]) + r" [\d.,–]+ (?:\S+ )+?([\d,.]+) " + re.escape(called), text)
    return NOTHING if row is None else f"{float(row.group(1).replace(',', '')):g}"


def _order_lines(papers):
    """Give every line of the orders by supplier, as the screen of orders shows it."""
    return [line for order in papers.json["cost"]["orders"] for line in order["lines"]]


def orders_of_suppliers(papers):
    """Give what each order is for: how much of what, in whole packs where it comes in packs."""
    lines = _order_lines(papers)
    rows = {(row[0], row[6]): row[5] for row in papers.item_rows if len(row) > 6}
    priced = {(row[0], row[6]): row[5] for row in papers.priced_item_rows if len(row) > 6}

    def said(much):
        return [f"{line['description']}: {much(line)} {line['order_unit']}" for line in lines]

    def in_book(rows):
        return lambda line: amount(rows.get((line["description"], line["order_unit"]), -1.0)).replace(THIN, "")

    return {
        "plan.json": said(lambda line: amount(line["ordered"]).replace(THIN, "")),
        "quantities.xlsx": said(in_book(rows)),
        "cost.xlsx": said(in_book(priced)),
        "job-pack.pdf": said(lambda line: _ordered_words(papers, line)),
    }


def _ordered_words(papers, line):
    found = _ordered_on_the_sheet(papers, line)
    return found if found == NOTHING else amount(float(found)).replace(THIN, "")


def over_the_need(papers):
    """Give what comes with each order beside what is needed."""
    lines = _order_lines(papers)
    rows = {(row[0], row[6]): row for row in papers.item_rows if len(row) > 8}
    over = [rows.get((line["description"], line["order_unit"])) for line in lines]
    return {
        "plan.json": [f"{line['description']}: {line['over']:.3f}" for line in lines],
        "quantities.xlsx": [
            f"{line['description']}: {NOTHING if row is None else format(row[8] - row[4], '.3f')}"
            for line, row in zip(lines, over, strict=True)
        ],
    }


def amounts_of_orders(papers):
    """Give the money of each line of an order: as ordered, as priced, and on the papers of the cost."""
    lines = [line for line in _order_lines(papers) if line["amount_minor"] is not None]
    coin = COINS[papers.json["job"]["identity"]["currency"]]
    priced = {line["key"]: line for line in papers.json["cost"]["lines"]}
    names = [priced[line["item"]]["description"] if line["item"] in priced else line["description"] for line in lines]
    rows = {row[0]: row[4] for row in papers.cost_rows if row[1] in {"material", "disposal"}}
    sheet = papers.text("cost-sheet.pdf")
    each = rf"[\d.,]+ [^{coin}]*{re.escape(coin)}[\d.,]+ {re.escape(coin)}({MONEY})"
    found = [re.search(re.escape(name) + " " + each, sheet) for name in names]
    return {
        "plan.json, orders": [f"{line['amount_minor'] / 100:.2f}" for line in lines],
        "plan.json, lines": [
            f"{priced[line['item']]['amount_minor'] / 100:.2f}" if line["item"] in priced else NOTHING for line in lines
        ],
        "cost.xlsx": [f"{rows[name]:.2f}" if name in rows else NOTHING for name in names],
        "cost-sheet.pdf": [NOTHING if one is None else one.group(1).replace(",", "") for one in found],
    }


def goods_of_suppliers(papers):
    """Give what the goods of each supplier come to, and all goods together."""
    orders = papers.json["cost"]["orders"]
    rows = {row[0]: row[4] for row in papers.cost_rows if row[1] in {"material", "disposal"}}
    names = {line["key"]: line["description"] for line in papers.json["cost"]["lines"]}
    by_book = [
        sum(rows.get(names.get(line["item"]), 0.0) for line in order["lines"] if line["amount_minor"] is not None)
        for order in orders
    ]
    coin = COINS[papers.json["job"]["identity"]["currency"]]
    sheet = papers.text("cost-sheet.pdf")
    _, _, sheet = sheet.partition("Orders by supplier ")
    goods = re.findall(rf"Goods (?:nothing has a price|{re.escape(coin)}{MONEY})", sheet.replace("Goods: ", "Goods "))
    printed = [each.rsplit(coin, 1)[-1].replace(",", "") if coin in each else "0.00" for each in goods]
    return {
        "cost-sheet.pdf": [
            f"{order['supplier']}: {much}" if f"{order['supplier'] or 'Supplier not named'}" in sheet else NOTHING
            for order, much in zip(orders, printed, strict=len(orders) == len(printed))
        ],
        "plan.json": [f"{order['supplier']}: {order['goods_minor'] / 100:.2f}" for order in orders],
        "cost.xlsx": [f"{order['supplier']}: {much:.2f}" for order, much in zip(orders, by_book, strict=True)],
    }


def orders_and_deliveries(papers):
    """Give what of each order comes with a delivery: not what leaves, nor what the crew buys on the day."""
    catalogue = {f"catalogue.{each['key']}": each for each in papers.json["job"]["rates"]["catalogue"]}
    by_day = {f"catalogue.{each}" for each in ("dust_mask", "fuel", "parking", "toilet_hire")}
    lines = [
        (order["supplier"], line["description"], line["ordered"])
        for order in papers.json["cost"]["orders"]
        for line in order["lines"]
        if line["item"] not in {"spoil", "pit_spoil"} | by_day
        and (not line["item"].startswith("catalogue.") or catalogue.get(line["item"], {}).get("lead_days"))
    ]
    brought = {}
    for delivery in papers.json["programme"]["deliveries"]:
        for item in delivery["items"]:
            at = delivery["supplier"], item["description"]
            brought[at] = brought.get(at, 0.0) + item["ordered"]
    return {
        "plan.json, orders": sorted(f"{who}: {ordered:g} of {what}" for who, what, ordered in lines),
        "plan.json, deliveries": sorted(f"{who}: {ordered:g} of {what}" for (who, what), ordered in brought.items()),
    }


def packs_paid(papers):
    lines = [line for line in papers.json["cost"]["lines"] if line["group"] == "material"]
    rows = {row[0]: row[2] for row in papers.cost_rows if row[1] == "material"}
    return {
        "plan.json": [f"{line['description']}: {line['quantity']:g}" for line in lines],
        "cost.xlsx": [f"{line['description']}: {rows.get(line['description'], -1.0):g}" for line in lines],
    }


def clearances(papers):
    """Give the least clearance of every wall."""
    found = {}
    for area in papers.json["levels"]["areas"]:
        for each in area["clearances"]:
            ends = f"{each['at_start_mm']:.0f} {each['at_end_mm']:.0f}"
            found.setdefault(each["wall"], []).append(ends)
    least = {
        wall: min(
            min(each["at_start_mm"], each["at_end_mm"])
            for area in papers.json["levels"]["areas"]
            for each in area["clearances"]
            if each["wall"] == wall
        )
        for wall in found
    }
    text = papers.text("job-pack.pdf")
    return {
        "plan.json": [(wall, ends, f"{least[wall]:.0f}") for wall, ends in found.items()],
        "job-pack.pdf and command line": [
            (
                wall,
                [pair if f"{wall} {pair}" in text else NOTHING for pair in ends],
                papers.after("command line", f"wall {wall}:", r"-?\d+(?= mm below)"),
            )
            for wall, ends in found.items()
        ],
    }


def steps_at_doors(papers):
    doors = [door for area in papers.json["levels"]["areas"] for door in area["doors"]]
    three = [" ".join(f"{door[f'{at}_mm']:.0f}" for at in ("left", "middle", "right")) for door in doors]
    said = []
    for door in doors:
        words = papers.after(
            "command line",
            f"door {door['opening']}: step down",
            r"\d+(?: mm at the left jamb, \d+ mm in the middle, \d+ mm at the right)?",
        )
        numbers = re.findall(r"\d+", words) or [NOTHING]
        said.append(" ".join(numbers * 3 if len(numbers) == 1 else numbers))
    return {
        "plan.json": three,
        "job-pack.pdf": [papers.after("job-pack.pdf", door["opening"], r"-?\d+ -?\d+ -?\d+(?! ?\.)") for door in doors],
        "command line": said,
    }  # fmt: skip


def levels_of_corners(papers):
    """Give every corner: the table of levels, the levels plan, the DXF, the points for an instrument."""
    text, svg = papers.text("job-pack.pdf"), papers.papers["plans/levels-plan.svg"].decode("utf-8")
    drawn, dxf = set(re.findall(r">(-?\d+\.\d{3})<", svg)), set(papers.dxf)
    corners = [(area["area"], spot) for area in papers.json["levels"]["areas"] for spot in area["corners"]]
    expected = [(spot["label"], f"{spot['level_mm'] / 1000:.3f}") for _, spot in corners]
    at_pegs = []
    for area, spot in corners:
        level = f"{spot['level_mm'] / 1000:.3f}"
        pegs = [
            row
            for row in papers.points
            if row["kind"] == "corner"
            and row["area"] == area
            and abs(float(row["x_mm"]) - spot["at"][0]) <= GRID_MM
            and abs(float(row["y_mm"]) - spot["at"][1]) <= GRID_MM
        ]
        right = pegs and all(abs(float(row["finished_level_mm"]) - spot["level_mm"]) <= GRID_MM for row in pegs)
        at_pegs.append((spot["label"], level if right else NOTHING))
    hidden = "No room here" in papers.text("job-pack.pdf")
    return {
        "plan.json": expected,
        "job-pack.pdf": [(label, level if f"{label} {level}" in text else NOTHING) for label, level in expected],
        "levels-plan.svg": [(label, level if level in drawn or hidden else NOTHING) for label, level in expected],
        "drawings.dxf": [(label, level if level in dxf else NOTHING) for label, level in expected],
        "set-out-points.csv": at_pegs,
    }


def services(papers):
    names = [each["service"]["name"] for each in papers.json["survey"]["site"]["services"]]
    text = papers.text("job-pack.pdf")
    known = re.search(r"Known here: (.*?)\. A service that is not listed", text)
    remarks = " ".join(row["remark"] for row in papers.points)
    dig, out = (papers.papers[f"plans/{name}.svg"].decode("utf-8") for name in ("dig-plan", "setting-out-plan"))
    return {
        "plan.json": ", ".join(names) or "none entered",
        "job-pack.pdf": NOTHING if known is None else known.group(1),
        "set-out-points.csv": ", ".join(name for name in names if name in remarks) or "none entered",
        "drawings.dxf": ", ".join(name for name in names if any(name in each for each in papers.dxf)) or "none entered",
        "dig-plan.svg": ", ".join(name for name in names if name in dig) or "none entered",
        "setting-out-plan.svg": ", ".join(name for name in names if name in out) or "none entered",
    }


def what_is_done(papers):
    """Give the sentences between two heads, word for word, of the customer's page and of the site's."""
    return {
        "quotation.pdf": re.search(
            r"What is in the price (.*?) (?:At the doors|What is not in the price)", papers.text("quotation.pdf")
        ).group(1),
        "job-pack.pdf": re.search(r"What is done (.*?) Price Before tax", papers.text("job-pack.pdf")).group(1),
    }


def what_is_not_in_the_price(papers):
    """What the contractor uses up himself stands in his own papers; a customer reads of everything else."""
    gaps = [gap["words"] for gap in papers.json["cost"]["gaps"]]
    ours = {gap["words"] for gap in papers.json["cost"]["gaps"] if gap["ours"]}
    customer = papers.text("quotation.pdf")
    prefix = "Not in the price: "
    book = [str(row[0])[len(prefix) :] for row in papers.cost_rows if str(row[0]).startswith(prefix)]
    return {
        "plan.json": gaps,
        "quotation.pdf": [words if (f"• {words}." in customer) is (words not in ours) else NOTHING for words in gaps],
        "job-pack.pdf": [words if f"• {words} " in papers.text("job-pack.pdf") + " " else NOTHING for words in gaps],
        "cost.xlsx": book,
    }


def soakaways(papers):
    text = papers.text("job-pack.pdf")
    found = papers.json["water"]["soakaways"]
    sizes = [
        (" × ".join(f"{each['size'][side]:,.0f}" for side in ("length_mm", "width_mm", "depth_mm")), each["outfall"])
        for each in found
    ]
    return {
        "plan.json": sizes,
        "job-pack.pdf": [(size if f"{name} {size}" in text else NOTHING, name) for size, name in sizes],
        "command line": [
            (_grouped(papers.after("command line", f"Soakaway {name}:", r"[\d.]+ × [\d.]+ × [\d.]+")), name)
            for _, name in sizes
        ],
    }


def _grouped(words):
    return words if words == NOTHING else " × ".join(f"{float(each):,.0f}" for each in words.split(" × "))


FACTS = (
    price_with_tax, price_before_tax, days_on_hire, first_and_last_day, days_on_site, day_to_walk_on, dug,
    dug_on_the_front, filled, areas, areas_for_the_customer, pieces, packs_ordered, orders_of_suppliers, over_the_need,
    amounts_of_orders, goods_of_suppliers, orders_and_deliveries, packs_paid, clearances,
    steps_at_doors, levels_of_corners, services, what_is_done, what_is_not_in_the_price, soakaways,
)  # fmt: skip


def disagree(fact, papers):
    """Return the papers that say something else than the first one."""
    said = fact(papers)
    first, *others = said.items()
    return (
        {f"{first[0]}: {first[1]!r}": {name: value for name, value in others if value != first[1]}}
        if any(value != first[1] for _, value in others)
        else {}
    )


@pytest.fixture(scope="module")
def read(made_pack):
    return functools.cache(lambda name: Papers(*made_pack(name)))


@pytest.mark.parametrize("fact", FACTS, ids=lambda fact: fact.__name__)
@pytest.mark.parametrize("name", JOBS)
def test_every_paper_says_the_same(read, name, fact):
    assert disagree(fact, read(name)) == {}


def later(made):
    tasks = tuple(
        replace(task, start=task.start + dt.timedelta(days=7), finish=task.finish + dt.timedelta(days=7))
        for task in made.programme.tasks
    )
    return replace(made, programme=replace(made.programme, tasks=tasks))


def dearer(made):
    first, *others = made.cost.lines
    return replace(
        made, cost=replace(made.cost, lines=(replace(first, amount_minor=first.amount_minor + 100), *others))
    )


def higher(made):
    pegs = tuple(
        replace(peg, heights=tuple(replace(each, level_mm=each.level_mm + 5.0) for each in peg.heights))
        for peg in made.setting_out.pegs
    )
    return replace(made, setting_out=replace(made.setting_out, pegs=pegs))


@pytest.mark.parametrize(
    ("fact", "paper", "make", "change"),
    [
        (first_and_last_day, "programme.ics", programme_calendar, later),
        (price_with_tax, "cost.xlsx", cost_workbook, dearer),
        (levels_of_corners, "set-out-points.csv", set_out_points, higher),
    ],
)
def test_one_paper_made_of_another_plan_is_noticed(read, fact, paper, make, change):
    whole = read("l_terrace")
    assert not disagree(fact, whole)
    other = Papers(whole.made, whole.papers | {paper: make(change(whole.made))})
    assert list(next(iter(disagree(fact, other).values()))) == [paper]
