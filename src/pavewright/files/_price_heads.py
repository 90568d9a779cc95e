"""What may stand over the columns of a price list, by what is listed."""

from __future__ import annotations

from pavewright.firm import ListColumnKind, ListKind

_CODE = ("code", "sku", "article", "art", "item no", "product no", "part no", "ref", "reference", "artikelnummer")
_PRICE = ("price", "cost", "rate", "net", "nett", "trade", "preis", "prix", "gross", "unit price", "amount")
_LEAD = ("lead", "lead time", "lead days", "delivery days", "days")
_PER = ("unit", "uom", "per", "charged by", "charged per", "priced by", "basis")
HEADS: dict[ListKind, dict[ListColumnKind, tuple[str, ...]]] = {
    ListKind.GOODS: {
        ListColumnKind.CODE: _CODE,
        ListColumnKind.NAME: (
            "description",
            "name",
            "product",
            "item",
            "bezeichnung",
            "designation",
            "material",
            "goods",
        ),
        ListColumnKind.PRICE: _PRICE,
        ListColumnKind.SOLD_BY: (
            *("unit", "uom", "sold by", "per", "unit of sale", "sales unit", "einheit", "unite", "u o m"),
            *("priced per", "priced by"),
        ),
        ListColumnKind.PACK_AMOUNT: (
            *("pack", "pack size", "per pack", "pack qty", "content", "contents", "qty", "quantity", "size"),
        ),
        ListColumnKind.MIN_PACKS: ("minimum", "min", "min order", "moq", "minimum order", "min qty"),
        ListColumnKind.LEAD_DAYS: _LEAD,
    },
    ListKind.PLANT: {
        ListColumnKind.CODE: _CODE,
        ListColumnKind.NAME: ("description", "name", "machine", "plant", "item", "tool", "equipment", "model"),
        ListColumnKind.PRICE: (*_PRICE, "day", "day rate", "daily", "per day", "1 day", "price per day", "day price"),
        ListColumnKind.WEEK_PRICE: (
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
        ListColumnKind.SOLD_BY: _PER,
        ListColumnKind.MIN_DAYS: ("min hire", "minimum hire", "min days", "minimum days", "minimum", "min"),
        ListColumnKind.DELIVERY: ("delivery", "carriage", "transport", "delivery and collection", "haulage"),
        ListColumnKind.LEAD_DAYS: ("lead", "lead time", "lead days", "notice", "notice days"),
    },
    ListKind.DISPOSAL: {
        ListColumnKind.CODE: _CODE,
        ListColumnKind.NAME: ("description", "name", "container", "skip", "item", "waste", "lorry", "service"),
        ListColumnKind.PRICE: (*_PRICE, "per load", "price per load", "per skip", "price per skip"),
        ListColumnKind.SOLD_BY: _PER,
        ListColumnKind.VOLUME: (
            "size",
            "volume",
            "capacity",
            "cubic yards",
            "yards",
            "yd3",
            "yd",
            "m3",
            "cubic metres",
        ),
        ListColumnKind.PAYLOAD: ("payload", "tonnes", "max weight", "weight", "max tonnes", "weight limit", "tonnage"),
        ListColumnKind.LEAD_DAYS: _LEAD,
    },
    ListKind.LABOUR: {
        ListColumnKind.CODE: _CODE,
        ListColumnKind.NAME: ("trade", "skill", "grade", "description", "name", "role", "who"),
        ListColumnKind.PRICE: (*_PRICE, "hourly", "hourly rate", "per hour", "day rate", "per day", "price per hour"),
        ListColumnKind.SOLD_BY: _PER,
    },
}
"""Words that stand over columns, by what is listed; of a head that holds several the longest counts."""
