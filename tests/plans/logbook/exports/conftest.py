"""A sitting in which everything happens."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from plans.reading import ProbeOn
from plans.sitting.events import Word

Tell = Callable[..., Any]
NEXT, OUT, UNDO, FINISH = Word.NEXT, Word.OUT, Word.UNDO, Word.FINISH
WORK = ProbeOn.WORK


@pytest.fixture
def eventful(tell: Tell) -> Any:
    """Two weld heats with everything that can happen: notes, undo, a pause, faults, a spell without the probe."""
    story = tell(WORK).say(NEXT).feel(1000, 10).feel(1260, 70).say('tongs slip, "again"\n=SUM(A1)', OUT)
    story.feel(1200, 4).feel(1120, 6).say(UNDO, OUT).feel(1100, 3).feel(None, 1, fault="open circuit").say(NEXT)
    story.feel(1260, 20).say(Word.PAUSE).wait(5).say(Word.RESUME).wait(30).feel(None, 0.25, fault="lost: unplugged")
    return story.feel(1255, 10).say(NEXT).feel(1180, 5).say(FINISH, "took well")
