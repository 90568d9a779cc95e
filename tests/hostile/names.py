"""Names of the whole world, and what is no name: scripts, emoji, controls, directions, marks, lengths. Made anew on each run."""

from __future__ import annotations

import unicodedata

WORDS = """
garden jardin Garten giardino jardín tuin have trädgård hage puutarha ogród zahrada záhrada kert grădină градина сад
двор κήπος bahçe bağ bustān vườn taman hardin māra gairdín gardd gàrradh lorategia jardí xardín orto mahala бақ боғ баг
цэцэрлэг այգի ბაღი חצר גינה باغ حديقة باغچه صحن باغیچه بستان ދަރުމަނި ܓܢܬܐ बगीचा बाग উদ্যান বাগান ਬਾਗ਼ બગીચો ବଗିଚା
தோட்டம் తోట ತೋಟ തോട്ടം ගෙවත්ත สวน ลานบ้าน ສວນ ឧទ្យាន សួន ဥယျာဉ် སྡུམ་ར། 庭 花园 花園 庭院 마당 정원 にわ ニワ 踏石
ᐱᕈᖅᓰᕕᒃ ᎠᏫᏌᏗ አትክልት ቦታ ⵓⵔⵜⵉ ᚌᚐᚏᚇᚐ ᚷᚨᚱᛞ ᮒᮙᮔ᮪ ᬢᬫᬦ᭄ ꦠꦩꦤ꧀ ꕉꔤ ꀋꂿ ᠴᠡᠴᠡᠷᠯᠢᠭ ߣߊߞߏ ᱵᱟᱜᱟᱱ
""".split()
EMOJI = [
    "🌳", "🏡", "🧱", "⛏️", "👷🏽", "👩‍🔧", "👨‍👩‍👧‍👦", "🇬🇧", "🏴󠁧󠁢󠁥󠁮󠁧󠁿", "1️⃣", "2⃣", "#️⃣", "❤️", "☂", "☔️", "✅", "⚠️", "🚧", "🪨", "🪵",
    "🫱🏻‍🫲🏿", "👍🏿", "🧑🏾‍🌾", "🐕‍🦺", "©️", "™️", "‼️", "⁉", "↔️", "▶️", "🅿️", "🈁", "㊗️", "🔟",
]  # fmt: skip
TYPED = [
    "\uf0b7 item", "\uf0a7 item", "\uf0fc done", "\ufeffGate", "Gate\ufeff", "soft\u00adhyphen", "zero\u200bwidth", "non\u00a0break",
    "line\u2028break", "para\u2029break", "“quoted”", "it’s", "a…b", "1½ m", "½ in", "⅜", "10 × 10", "−5", "1⁄2", "m²", "m³", "25 °C", "Ø100",
    "№ 5", "℄", "≈ 3", "≤ 5", "≥ 5", "± 2", "∅", "⌀", "→", "⇒", "■", "▲", "●", "✓", "✗", "☐", "☑", "£", "€", "₹", "₽", "¥", "₩", "₺", "₿",
    "=1+1", "+1", "-1", "@a", "'=1", "#1", "<b>", "</script>", "&amp;", '"x"', "a'b", "{{7*7}}", "${7}", '#read("x")', "$x^2$", "*b*", "_i_",
    "a;b", "a,b", "a\\b", "a/b", "../../etc", "CON", "a%00b", "a\tb", "\u202egate\u202c", "\u2067gate\u2069", "a\u200db", "a\u200cb",
]  # fmt: skip
MARKS = [
    "Z" + "".join(chr(0x300 + n) for n in range(40)),
    "e\u0301" * 20,
    "กำ" * 10,
    "क्ष्म्य",
    "நௌ",
    "ཀྵྱི",
    "ạ̈̃",
    "ø̂̌",
    "﷽",
    "ﷺ",
    "ﬃ",
    "㍿",
    "Ǆ",
    "ß",
    "İ",
    "ı",
]
CONTROLS = [
    f"a{chr(code)}b"
    for code in (0x01, 0x07, 0x08, 0x0B, 0x0C, 0x0E, 0x1B, 0x1F, 0x7F, 0x80, 0x85, 0x9B, 0x9F, 0xFFFE, 0xFFFF, 0xFFF9)
]
STRANGE = [
    "\ue000",
    "\uf8ff",
    "\U000f0000",
    "\U0010fffd",
    "𓀀𓂀",
    "𒀀",
    "𐎀",
    "𐤀",
    "𝔸𝕓",
    "𝒳",
    "🄰",
    "🀄",
    "𠀀",
    "𪚥",
    "㐀",
    "\u0378",
    "\ufffd",
    "\u2fff",
    "\U0001f9ff",
    "\U000e0041",
]
LONG = ["x" * 60, "庭" * 60, "🌳" * 60, "é" * 60, "स्त" * 20, " lots   of   blanks ", "." * 60, "1" * 60]


def of_blocks() -> list[str]:
    """Return a name of the first letters of every stretch of letters."""
    found, kept = [], ""
    for code in range(0xA0, 0x20000):
        sign = chr(code)
        if unicodedata.category(sign) in {"Ll", "Lo", "Lm", "No", "So", "Sm", "Sc", "Po"}:
            kept += sign
        if code % 0x200 == 0x1FF:
            if kept:
                found.append(kept[:: max(1, len(kept) // 8)][:8])
            kept = ""
    return found


def all_names() -> list[str]:
    """Return every name, each once."""
    rows = [*WORDS, *EMOJI, *TYPED, *MARKS, *CONTROLS, *STRANGE, *LONG, *of_blocks()]
    return list(dict.fromkeys(rows))
