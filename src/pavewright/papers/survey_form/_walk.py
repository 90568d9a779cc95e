"""The walk round the house on paper: the very questions of the walk on the screen, with room for the answers."""

from __future__ import annotations

from typing import TYPE_CHECKING

from pavewright.papers.look import Head, SheetOfPaper, facts, heading, paragraph, pencil, rest, table
from pavewright.papers.survey_form._known import answer_words, known_of
from pavewright.papers.survey_form._words import WORDS
from pavewright.survey import WALK_QUESTIONS

if TYPE_CHECKING:
    from pavewright.job import WalkRoundAnswer
    from pavewright.pipeline import Plan
    from pavewright.survey import WalkQuestion

_ROOM_PT = 7.5
"""Room above and below the words of a question, so that there is room to write beside it. [pt]"""
_QUESTION_MM, _TICK_MM = 76.0, 13.0
"""Width of the question, and of a box to tick. [mm]"""


def walk_sheet(plan: Plan) -> SheetOfPaper:
    """Return the questions with what is known to each and room to write; answers to questions of one's own last."""
    question, none, not_seen, seen = WORDS.walk_heads
    heads = (Head(question, wide_mm=_QUESTION_MM), pencil(none, _TICK_MM), pencil(not_seen, _TICK_MM), rest(seen))
    rows = [(_asked(each), "", "", known_of(plan, each)) for each in WALK_QUESTIONS]
    rows += [(WORDS.photos, "", "", ""), (WORDS.ground, "", "", "")]
    sheet = SheetOfPaper(WORDS.walk, follows=True)
    sheet.add(paragraph(WORDS.walk_words), table(heads, rows, pad=_ROOM_PT, boxed=True))
    own = [(each.question, answer_words(each)) for each in plan.job.site.walk_round if not _is_ours(each)]
    return sheet.add(heading(WORDS.answered), facts(own)) if own else sheet


def _is_ours(answer: WalkRoundAnswer) -> bool:
    topics = {question.topic for question in WALK_QUESTIONS if question.topic is not None}
    return answer.topic in topics or answer.question in {question.words for question in WALK_QUESTIONS}


def _asked(question: WalkQuestion) -> str:
    if not question.usual:
        return question.words
    return WORDS.usual(question=question.words, answers=" / ".join(question.usual))
