"""The list of steps: what of the plan is done, and what is not."""

from __future__ import annotations

import pytest

from plans.reader import read_plan
from plans.sitting.engine import Sitting
from plans.sitting.events import Said, Word
from plans.units import Units
from tui.live.step_text import step_list

PLAN = """
heatbook = 1
title = "Three steps"

[[step]]
title = "First"
kind = "bench"

[[step]]
title = "Second"
kind = "bench"

[[step]]
title = "Third"
kind = "bench"
"""


def told(*words: Word) -> Sitting:
    """The plan begun, and these words said a second apart."""
    sitting = Sitting(read_plan(PLAN, "steps", "steps.toml"), None)
    sitting.open()
    for at, word in enumerate(words, 1):
        sitting.take(Said(float(at), word))
    return sitting


@pytest.mark.parametrize(
    ("words", "current", "working"),
    [
        ([], 0, True),
        ([Word.NEXT], 1, True),
        ([Word.NEXT, Word.FINISH], 1, False),
        ([Word.NEXT, Word.NEXT, Word.NEXT], 3, False),
    ],
    ids=["begun", "at the second", "left at the second", "the whole plan"],
)
def test_what_comes_after_an_early_end_is_not_done(words: list[Word], current: int, working: bool) -> None:
    sitting = told(*words)
    assert step_list(sitting, Units.METRIC)[1:] == (current, working)
    assert sitting.state.finished is (words[-1:] == [Word.FINISH] or len(words) == 3)
