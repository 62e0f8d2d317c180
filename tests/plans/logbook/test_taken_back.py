"""Calls that came of a word that was taken back; each story goes by the small plan, with a probe on the work."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from plans.logbook.taken_back import calls_taken_back
from plans.reading import ProbeOn, Reading
from plans.sitting.events import Word

Tell = Callable[..., Any]
NEXT, OUT, UNDO, REDO = Word.NEXT, Word.OUT, Word.UNDO, Word.REDO


def told(story: Any) -> list[tuple[str, bool]]:
    """Each call, and whether it was taken back."""
    back = calls_taken_back(entry for entry in story.entries if not isinstance(entry, Reading))
    return [(called.call.value, place in back) for place, called in enumerate(story.sitting.state.calls)]


@pytest.fixture
def struck_too_soon(tell: Tell) -> Any:
    """Out by mistake; the probe shows 1120 degC, where the cold limit is 1150, and that is called out."""
    return tell(ProbeOn.WORK).say(NEXT).feel(1240, 60).say(OUT).feel(1120, 5)


def test_a_call_stands_until_its_word_is_taken_back(struck_too_soon: Any) -> None:
    assert ("too cold", False) in told(struck_too_soon)
    struck_too_soon.say(UNDO)
    assert ("too cold", True) in told(struck_too_soon)
    struck_too_soon.say(REDO)
    assert ("too cold", False) in told(struck_too_soon)


def test_what_was_called_before_the_word_stands(struck_too_soon: Any) -> None:
    story = struck_too_soon.say(NEXT).feel(1120, 5).say(UNDO)
    assert ("too cold", False) in told(story), "only the way back into the fire was taken back"


def test_what_the_probe_says_of_itself_stands(struck_too_soon: Any) -> None:
    story = struck_too_soon.wait(20).say(UNDO)
    assert ("probe lost", False) in told(story)


def test_a_word_that_changed_nothing_takes_no_call_with_it(tell: Tell) -> None:
    story = tell(ProbeOn.WORK).say(NEXT).feel(1240, 60).say(OUT).feel(1180, 5).say(Word.REPEAT).feel(1120, 5).say(UNDO)
    assert ("too cold", False) in told(story)
