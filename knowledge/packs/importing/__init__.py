"""Turn what people really have, a spreadsheet or a text table, into rows of a pack.

    sheet = read_sheet(path)                      # or WhichSheetError: say which
    plan = make_plan(sheet, Target(register="our-register"))
    plan.questions, plan.repairs, plan.notes      # show these
    table = apply(plan, {"1": "day first"}, accepted_repairs=[1, 2])

Nothing is guessed in silence: what has two meanings is a question, what seems damaged is a repair to accept or not,
and what was assumed is in the notes.
"""

from knowledge.packs.importing.files import read_sheet
from knowledge.packs.importing.plan import ImportPlan, apply, make_plan
from knowledge.packs.importing.questions import Question
from knowledge.packs.importing.rows import Target
from knowledge.packs.importing.sheet import Sheet, SheetError, WhichSheetError
from knowledge.packs.importing.zeros import Repair

__all__ = [
    "ImportPlan",
    "Question",
    "Repair",
    "Sheet",
    "SheetError",
    "Target",
    "WhichSheetError",
    "apply",
    "make_plan",
    "read_sheet",
]
