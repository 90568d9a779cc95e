"""Desk: what a user may ask for, in verbs.

It joins the rulebook of the job's place, the pipeline and the papers, so that the command line and any other door ask
the same things in the same way.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.desk._accepting import Acceptance, accept_operations
    from pavewright.desk._account import account_told, find_account
    from pavewright.desk._account_steps import AccountRefusedError, AccountStep, account_step
    from pavewright.desk._beside import beside_book, beside_photos
    from pavewright.desk._book_verbs import ScreenRefusalError
    from pavewright.desk._build_ups import build_ups_told
    from pavewright.desk._customer_form import (
        NAME_MAX,
        QUESTION_MAX,
        SIGNED_HIGH,
        SIGNED_WIDE,
        Chosen,
        FormFault,
        FormField,
        Signed,
        chosen_of,
        question_of,
        signature_of,
        signed_of,
    )
    from pavewright.desk._deliveries import DELIVERY_KINDS, DeliveryRefusedError, deliver_into
    from pavewright.desk._drawings import DRAWINGS
    from pavewright.desk._firm import book_told, prices_shown, prices_taken, usual_writing
    from pavewright.desk._like import like_document
    from pavewright.desk._packs import PAPER_KEYS, make_pack, make_pack_so_far, write_pack
    from pavewright.desk._photos import photos_in
    from pavewright.desk._plain import plain
    from pavewright.desk._points import points_with, surveyed_points
    from pavewright.desk._quotation_shown import NoQuotation
    from pavewright.desk._read import EMPTY_BOOK, firm_schema, job_schema, read_book
    from pavewright.desk._repricing import find_repricing, quote_operations, quoted_document, repricing_told
    from pavewright.desk._risks import find_risk, risk_of
    from pavewright.desk._screens import PLAN_PARTS, SCREEN_VERBS
    from pavewright.desk._search import find_sums, search
    from pavewright.desk._source_words import source_words
    from pavewright.desk._stages import STAGES, Stage, screen_lists
    from pavewright.desk._starter import starter_document
    from pavewright.desk._starts import find_starts
    from pavewright.desk._storms import film_drawing, run_storm_on
    from pavewright.desk._sums import AnsweredSum, answer_sum
    from pavewright.desk._sums_page import sums_told
    from pavewright.desk._verbs import DEMO, demo_document, make_plan, make_plan_so_far, read_job_file
    from pavewright.desk._weather import WeatherTold, weather_told
    from pavewright.desk._weight import what_weighs
    from pavewright.files import file_told
else:
    __getattr__ = face(__name__)

__all__ = [
    "DELIVERY_KINDS",
    "DEMO",
    "DRAWINGS",
    "EMPTY_BOOK",
    "NAME_MAX",
    "PAPER_KEYS",
    "PLAN_PARTS",
    "QUESTION_MAX",
    "SCREEN_VERBS",
    "SIGNED_HIGH",
    "SIGNED_WIDE",
    "STAGES",
    "Acceptance",
    "AccountRefusedError",
    "AccountStep",
    "AnsweredSum",
    "Chosen",
    "DeliveryRefusedError",
    "FormFault",
    "FormField",
    "NoQuotation",
    "ScreenRefusalError",
    "Signed",
    "Stage",
    "WeatherTold",
    "accept_operations",
    "account_step",
    "account_told",
    "answer_sum",
    "beside_book",
    "beside_photos",
    "book_told",
    "build_ups_told",
    "chosen_of",
    "deliver_into",
    "demo_document",
    "file_told",
    "film_drawing",
    "find_account",
    "find_repricing",
    "find_risk",
    "find_starts",
    "find_sums",
    "firm_schema",
    "job_schema",
    "like_document",
    "make_pack",
    "make_pack_so_far",
    "make_plan",
    "make_plan_so_far",
    "photos_in",
    "plain",
    "points_with",
    "prices_shown",
    "prices_taken",
    "question_of",
    "quote_operations",
    "quoted_document",
    "read_book",
    "read_job_file",
    "repricing_told",
    "risk_of",
    "run_storm_on",
    "screen_lists",
    "search",
    "signature_of",
    "signed_of",
    "source_words",
    "starter_document",
    "sums_told",
    "surveyed_points",
    "usual_writing",
    "weather_told",
    "what_weighs",
    "write_pack",
]
