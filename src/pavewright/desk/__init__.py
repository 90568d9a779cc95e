"""Desk: what a user may ask for, in verbs.

It joins the rulebook of the job's place, the pipeline and the papers, so that the command line and any other door ask
the same things in the same way.
"""

from typing import TYPE_CHECKING

from pavewright.faces import face

if TYPE_CHECKING:
    from pavewright.desk._accepting import Acceptance, accept_operations
    from pavewright.desk._account import account_told, find_account
    from pavewright.desk._account_steps import AccountRefusedError, AccountStep, account_step, dig_step
    from pavewright.desk._beside import beside_book, beside_photos
    from pavewright.desk._better import Here, find_better
    from pavewright.desk._better_asked import (
        MOST_PLANS,
        PART,
        USUAL_PLANS,
        AskedNothingError,
        BetterAsked,
        better_asked,
    )
    from pavewright.desk._book_verbs import ScreenRefusalError
    from pavewright.desk._build_ups import build_ups_told
    from pavewright.desk._calendar import CALENDAR_VERBS, EMPTY_CALENDAR_TEXT, numbered, on_calendar, read_calendar
    from pavewright.desk._calendar_feed import feed_of
    from pavewright.desk._clouds import CloudFile, checked_cloud
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
    from pavewright.desk._engine_verbs import ENGINE_VERBS
    from pavewright.desk._firm import book_told, prices_shown, prices_taken, usual_writing
    from pavewright.desk._like import like_document
    from pavewright.desk._logo import LOGO_PIXELS_MAX
    from pavewright.desk._many import plans_by
    from pavewright.desk._order_book_told import due_told, hand_set, money_told, order_words, state_told
    from pavewright.desk._packs import PAPER_KEYS, make_pack, make_pack_so_far, write_pack
    from pavewright.desk._photos import PHOTO_PIXELS_MAX, photos_in
    from pavewright.desk._plain import plain
    from pavewright.desk._points import points_with, surveyed_points
    from pavewright.desk._quotation_shown import NoQuotation
    from pavewright.desk._read import EMPTY_BOOK, firm_schema, job_schema, read_book
    from pavewright.desk._record import VerifiedRecord, record_pdf, record_told, record_zip, title_of, verify_record
    from pavewright.desk._replan import Replan, replan_page, replan_rows
    from pavewright.desk._replan_compared import Standing, Take
    from pavewright.desk._replan_question import STATES, Of, ReplanCounts, ReplanQuestion, books_of
    from pavewright.desk._replan_told import replan_csv, replan_told
    from pavewright.desk._repricing import find_repricing, quote_operations, quoted_document, repricing_told
    from pavewright.desk._risks import draws_for, find_risk, risk_of
    from pavewright.desk._screens import PLAN_PARTS, SCREEN_VERBS
    from pavewright.desk._search import find_sums, search
    from pavewright.desk._source_words import source_words
    from pavewright.desk._spread import PartFailedError, Spread, spread_risk, spread_storm
    from pavewright.desk._stages import STAGES, Stage, screen_lists
    from pavewright.desk._starter import starter_document
    from pavewright.desk._starts import find_starts
    from pavewright.desk._storms import film_drawing, run_storm_on
    from pavewright.desk._sums import AnsweredSum, answer_sum
    from pavewright.desk._sums_page import sums_told
    from pavewright.desk._verbs import DEMO, demo_document, make_plan, make_plan_so_far, read_job_file
    from pavewright.desk._weather import WeatherTold, weather_told
    from pavewright.desk._weight import what_weighs
    from pavewright.desk._without_money import (
        HIDDEN_WITH_MONEY,
        LONG_WITHOUT_MONEY,
        MONEY_FIELDS,
        MONEY_PARTS,
        NOTHING_HIDDEN,
        PAPERS_WITHOUT_MONEY,
        PLAN_PARTS_WITHOUT_MONEY,
        PRICE_STAGE,
        book_without_money,
        job_without_money,
        money_in,
        outcome_without_money,
        summary_without_money,
        units_without_money,
    )
    from pavewright.files import file_told
else:
    __getattr__ = face(__name__)

__all__ = [
    "CALENDAR_VERBS",
    "DELIVERY_KINDS",
    "DEMO",
    "DRAWINGS",
    "EMPTY_BOOK",
    "EMPTY_CALENDAR_TEXT",
    "ENGINE_VERBS",
    "HIDDEN_WITH_MONEY",
    "LOGO_PIXELS_MAX",
    "LONG_WITHOUT_MONEY",
    "MONEY_FIELDS",
    "MONEY_PARTS",
    "MOST_PLANS",
    "NAME_MAX",
    "NOTHING_HIDDEN",
    "PAPERS_WITHOUT_MONEY",
    "PAPER_KEYS",
    "PART",
    "PHOTO_PIXELS_MAX",
    "PLAN_PARTS",
    "PLAN_PARTS_WITHOUT_MONEY",
    "PRICE_STAGE",
    "QUESTION_MAX",
    "SCREEN_VERBS",
    "SIGNED_HIGH",
    "SIGNED_WIDE",
    "STAGES",
    "STATES",
    "USUAL_PLANS",
    "Acceptance",
    "AccountRefusedError",
    "AccountStep",
    "AnsweredSum",
    "AskedNothingError",
    "BetterAsked",
    "Chosen",
    "CloudFile",
    "DeliveryRefusedError",
    "FormFault",
    "FormField",
    "Here",
    "NoQuotation",
    "Of",
    "PartFailedError",
    "Replan",
    "ReplanCounts",
    "ReplanQuestion",
    "ScreenRefusalError",
    "Signed",
    "Spread",
    "Stage",
    "Standing",
    "Take",
    "VerifiedRecord",
    "WeatherTold",
    "accept_operations",
    "account_step",
    "account_told",
    "answer_sum",
    "beside_book",
    "beside_photos",
    "better_asked",
    "book_told",
    "book_without_money",
    "books_of",
    "build_ups_told",
    "checked_cloud",
    "chosen_of",
    "deliver_into",
    "demo_document",
    "dig_step",
    "draws_for",
    "due_told",
    "feed_of",
    "file_told",
    "film_drawing",
    "find_account",
    "find_better",
    "find_repricing",
    "find_risk",
    "find_starts",
    "find_sums",
    "firm_schema",
    "hand_set",
    "job_schema",
    "job_without_money",
    "like_document",
    "make_pack",
    "make_pack_so_far",
    "make_plan",
    "make_plan_so_far",
    "money_in",
    "money_told",
    "numbered",
    "on_calendar",
    "order_words",
    "outcome_without_money",
    "photos_in",
    "plain",
    "plans_by",
    "points_with",
    "prices_shown",
    "prices_taken",
    "question_of",
    "quote_operations",
    "quoted_document",
    "read_book",
    "read_calendar",
    "read_job_file",
    "record_pdf",
    "record_told",
    "record_zip",
    "replan_csv",
    "replan_page",
    "replan_rows",
    "replan_told",
    "repricing_told",
    "risk_of",
    "run_storm_on",
    "screen_lists",
    "search",
    "signature_of",
    "signed_of",
    "source_words",
    "spread_risk",
    "spread_storm",
    "starter_document",
    "state_told",
    "summary_without_money",
    "sums_told",
    "surveyed_points",
    "title_of",
    "units_without_money",
    "usual_writing",
    "verify_record",
    "weather_told",
    "what_weighs",
    "write_pack",
]
