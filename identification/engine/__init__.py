"""The identification engine: a pack of plain numbers in, a posterior, a next question and a verdict out.

Pure Python and numpy: no Django, no files, no clock, no hidden randomness. Methods and sources stand beside the code.
"""

from identification.engine.attainable import Attainable, attainable, told_apart
from identification.engine.checks import Checks, smallest_checks
from identification.engine.claims import (
    DOUBTFUL,
    NOT_THIS,
    NOTHING_AGAINST,
    THE_LABEL,
    ClaimJudged,
    judge_claim,
    refuting_checks,
)
from identification.engine.compiling import compile_pack
from identification.engine.grouping import group_chances, group_question
from identification.engine.information import expected_information
from identification.engine.keys import Fork, Leaf
from identification.engine.mistakes import NOT_RECORDED, WALKS, named_as
from identification.engine.model import (
    ALTERED,
    CANNOT_TELL,
    KIND_GROUPS,
    PART_MISSING,
    Answer,
    Answers,
    CellState,
    Context,
    Feature,
    Measured,
    States,
    Version,
)
from identification.engine.pack import Belief, Pack, Question
from identification.engine.printed_key import MOST_COUPLETS, NO_PART, PrintedKey, printed_key, versions_in
from identification.engine.reasons import Reason, prior_decibans, reasons, strength_word
from identification.engine.stepping import Ask, Finish, next_step
from identification.engine.verdict import CANNOT_SAY, PROBABLE, Verdict, verdict
from identification.engine.walks import expected_questions

__all__ = [
    "ALTERED",
    "CANNOT_SAY",
    "CANNOT_TELL",
    "DOUBTFUL",
    "KIND_GROUPS",
    "MOST_COUPLETS",
    "NOTHING_AGAINST",
    "THE_LABEL",
    "NOT_THIS",
    "NO_PART",
    "NOT_RECORDED",
    "PART_MISSING",
    "PROBABLE",
    "Answer",
    "Answers",
    "Ask",
    "Attainable",
    "Belief",
    "CellState",
    "Checks",
    "ClaimJudged",
    "Context",
    "Feature",
    "Finish",
    "Fork",
    "Leaf",
    "Measured",
    "Pack",
    "PrintedKey",
    "Question",
    "Reason",
    "States",
    "WALKS",
    "Verdict",
    "Version",
    "attainable",
    "compile_pack",
    "expected_information",
    "expected_questions",
    "group_chances",
    "group_question",
    "named_as",
    "judge_claim",
    "next_step",
    "prior_decibans",
    "printed_key",
    "reasons",
    "refuting_checks",
    "smallest_checks",
    "strength_word",
    "told_apart",
    "verdict",
    "versions_in",
]
