"""What may stand over the columns of a price list, by what is listed."""

from __future__ import annotations

from enum import StrEnum


class ListOf(StrEnum):
    """What a list holds prices of: goods, plant on hire, loads taken away, hours of labour."""

    GOODS = "goods"
    PLANT = "plant"
    DISPOSAL = "disposal"
    LABOUR = "labour"


class PriceColumn(StrEnum):
    """What a column of a price list holds."""

    CODE = "code"
    NAME = "name"
    PRICE = "price"
    SOLD_BY = "sold_by"
    PACK_AMOUNT = "pack_amount"
    MIN_PACKS = "min_packs"
    LEAD_DAYS = "lead_days"
    WEEK_PRICE = "week_price"
    MIN_DAYS = "min_days"
    DELIVERY = "delivery"
    VOLUME = "volume"
    PAYLOAD = "payload"


_CODE = ("code", "sku", "article", "art", "item no", "product no", "part no", "ref", "reference", "artikelnummer")
_PRICE = ("price", "cost", "rate", "net", "nett", "trade", "preis", "prix", "gross", "unit price", "amount")
_LEAD = ("lead", "lead time", "lead days", "delivery days", "days")
_PER = ("unit", "uom", "per", "charged by", "charged per", "priced by", "basis")
HEADS: dict[ListOf, dict[PriceColumn, tuple[str, ...]]] = {
    ListOf.GOODS: {
        PriceColumn.CODE: _CODE,
        PriceColumn.NAME: ("description", "name", "product", "item", "bezeichnung", "designation", "material", "goods"),
        PriceColumn.PRICE: _PRICE,
        PriceColumn.SOLD_BY: (
            *("unit", "uom", "sold by", "per", "unit of sale", "sales unit", "einheit", "unite", "u o m"),
            *("priced per", "priced by"),
        ),
        PriceColumn.PACK_AMOUNT: (
            *("pack", "pack size", "per pack", "pack qty", "content", "contents", "qty", "quantity", "size"),
        ),
        PriceColumn.MIN_PACKS: ("minimum", "min", "min order", "moq", "minimum order", "min qty"),
        PriceColumn.LEAD_DAYS: _LEAD,
    },
    ListOf.PLANT: {
        PriceColumn.CODE: _CODE,
        PriceColumn.NAME: ("description", "name", "machine", "plant", "item", "tool", "equipment", "model"),
        PriceColumn.PRICE: (*_PRICE, "day", "day rate", "daily", "per day", "1 day", "price per day", "day price"),
        PriceColumn.WEEK_PRICE: (
            *(
                "week",
                "week rate",
                "weekly",
                "per week",
                "weekly rate",
                "price per week",
                "7 day",
                "7 days",
                "week price",
            ),
        ),
        PriceColumn.SOLD_BY: _PER,
        PriceColumn.MIN_DAYS: ("min hire", "minimum hire", "min days", "minimum days", "minimum", "min"),
        PriceColumn.DELIVERY: ("delivery", "carriage", "transport", "delivery and collection", "haulage"),
        PriceColumn.LEAD_DAYS: ("lead", "lead time", "lead days", "notice", "notice days"),
    },
    ListOf.DISPOSAL: {
        PriceColumn.CODE: _CODE,
        PriceColumn.NAME: ("description", "name", "container", "skip", "item", "waste", "lorry", "service"),
        PriceColumn.PRICE: (*_PRICE, "per load", "price per load", "per skip", "price per skip"),
        PriceColumn.SOLD_BY: _PER,
        PriceColumn.VOLUME: ("size", "volume", "capacity", "cubic yards", "yards", "yd3", "yd", "m3", "cubic metres"),
        PriceColumn.PAYLOAD: ("payload", "tonnes", "max weight", "weight", "max tonnes", "weight limit", "tonnage"),
        PriceColumn.LEAD_DAYS: _LEAD,
    },
    ListOf.LABOUR: {
        PriceColumn.CODE: _CODE,
        PriceColumn.NAME: ("trade", "skill", "grade", "description", "name", "role", "who"),
        PriceColumn.PRICE: (*_PRICE, "hourly", "hourly rate", "per hour", "day rate", "per day", "price per hour"),
        PriceColumn.SOLD_BY: _PER,
    },
}
"""Words that stand over columns, by what is listed; of a head that holds several the longest counts."""
