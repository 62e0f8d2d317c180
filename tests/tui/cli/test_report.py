"""What a sitting without a screen says of an event, for people."""

from __future__ import annotations

from plans.reader import SHELF, read_plan_file
from plans.sitting.engine import Sitting
from plans.sitting.events import Asked, Event, Said, Word
from plans.sitting.hands import Hands
from tui.cli.report import Report


def test_a_word_that_is_asked_about_tells_how_soon_it_counts_and_does() -> None:
    sitting, lines = Sitting(read_plan_file(SHELF / "normalize.toml"), hands=Hands(asks=True)), list[str]()
    report = Report(False, say=lines.append)
    sitting.open()

    def say(at: float, word: Word) -> Event:
        first, *_ = [event for event in sitting.take(Said(at, word)) if isinstance(event, Event)]
        report.event(first, sitting)
        return first

    say(0.0, Word.NEXT)
    say(1.0, Word.NEXT)
    assert isinstance(say(3.0, Word.OUT), Asked)
    assert lines[-1].endswith("say it again if so, no sooner than 0.5 s from now")
    assert isinstance(say(3.4, Word.OUT), Asked)
    assert isinstance(say(3.9, Word.OUT), Said)
