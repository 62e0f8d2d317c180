"""What a sitting without a screen says: a line each for events, calls and words, for people or as JSON."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import replace
from typing import Any

from plans.logbook import Recalled, Summary
from plans.logbook.lines import about, measured_by, recalled_line, tick_line
from plans.prose import in_units
from plans.shown import show_clock
from plans.sitting import (
    ECHO,
    Asked,
    Begun,
    Called,
    Eased,
    Ended,
    Event,
    Glance,
    LeftFire,
    MainFigure,
    MainFigureKind,
    Said,
    Saying,
    Sitting,
    WentOn,
    Word,
    event_to_record,
    first_of_all,
    for_plan,
    glance_at,
    last_word,
    question,
    read_tick,
    taken_back,
)
from plans.units import Units
from tui.running import NOTHING_KEPT, or_go_on


def _print(line: str) -> None:
    print(line, flush=True)


class Report:
    """Says, line by line, what comes of a sitting.

    Args:
        as_json: one JSON object a line, or for people
        units: those for people
        say: takes each line, without its end
    """

    def __init__(self, as_json: bool, units: Units = Units.METRIC, say: Callable[[str], object] = _print) -> None:
        self._json, self._units = as_json, units
        self._say = say
        self._where: dict[str, Any] = {}
        """Step, heat and phase that an event came in."""
        self._lessons: Callable[[int], tuple[Recalled, ...]] = lambda _: ()
        self._before: int | None = None
        """The step whose lessons were told last."""
        self._told: set[str] = set()

    @property
    def units(self) -> Units:
        """Those that people are told figures in."""
        return self._units

    def opening(
        self, sitting: Sitting, name: str, lessons: Callable[[int], tuple[Recalled, ...]] = lambda _: ()
    ) -> None:
        """The sitting begins: its id, its plan, and the cautions.

        Args:
            sitting: as it begins
            name: its id
            lessons: the lessons that are to be said before a step, from 0
        """
        self._lessons = lessons
        plan = sitting.plan
        self._line({"at_seconds": 0.0, "event": "sitting", "id": name, "plan": plan.name, "title": plan.title}, name)
        self._line(
            {"at_seconds": 0.0, "event": "caution", "about": "first of all", "text": first_of_all()}, first_of_all()
        )
        for caution in for_plan(plan):
            record = {"at_seconds": 0.0, "event": "caution", "about": caution.about, "text": caution.text}
            self._line(record, in_units(f"caution, {caution.about}: {caution.text}", self._units))
        state = sitting.state
        self.event(replace(state.last_begun, at=sitting.now, happened=None), sitting)
        if state.paused:
            self._line(
                {"at_seconds": sitting.now, "event": "paused"}, "paused: say next, or resume, when the work goes on"
            )

    def recovered(self, summary: Summary) -> None:
        """A sitting that was cut off has been put away, or, without an end, is being put away."""
        event, became = ("cut off", "") if summary.ended is None else ("recovered", " is in the log")
        record = {"at_seconds": 0.0, "event": event, "id": summary.id, "state": summary.state.value}
        self._line(record, f"a sitting that was cut off{became}: {summary.id}{or_go_on(summary)}")

    def left(self, summary: Summary) -> None:
        """The last sitting of the plan that is begun anew can be gone on with instead."""
        record = {"at_seconds": 0.0, "event": "left", "id": summary.id, "state": summary.state.value}
        self._line(record, f"the last sitting of this plan was left unfinished: {summary.id}{or_go_on(summary)}")

    def event(self, event: Event, sitting: Sitting) -> None:
        """Tell an event, with step, heat and phase in which it happened.

        Args:
            event: what happened
            sitting: as it stands after that
        """
        record = event_to_record(event)
        moved = isinstance(event, Said) and event.word in (Word.UNDO, Word.REDO)
        if isinstance(event, Said) and moved:
            record["what"] = _what(event.word, sitting)
        if isinstance(event, Begun) or not self._where or moved:
            place = event if isinstance(event, Begun) else sitting.state.last_begun
            self._where = {"step": place.step + 1, "heat": place.heat, "phase": place.phase.value}
        text = f"{show_clock(event.at)}  {_said(event, sitting, self._units)}"
        if isinstance(event, Begun) and (figure := glance_at(sitting, sitting.now).figure).least is not None:
            text += f"; {_in_words(figure, self._units)}"
            record |= _in_record(figure)
        self._line(record | self._where | record, text)
        if isinstance(event, Begun) and event.step != self._before:
            self._before = event.step
            self._tell_lessons(event)

    def _tell_lessons(self, begun: Begun) -> None:
        """The lessons of earlier sittings on a step that comes; one on whole plans or steels is said but once."""
        for one in self._lessons(begun.step):
            if one.lesson.tie.is_of_a_step or one.id not in self._told:
                self._told.add(one.id)
                record = {"at_seconds": round(begun.at, 3), "event": "lesson", "id": one.id, "text": one.lesson.text}
                self._line(record | self._where, f"{show_clock(begun.at)}  lesson: {recalled_line(one)}")

    def countdown(self, saying: Saying, seen: Glance) -> None:
        """So much hammer time is left, or a part of the work is cold."""
        record = {"at_seconds": round(seen.at, 3), "event": "countdown", "text": saying.text} | _in_record(seen.figure)
        self._line(record | self._where, f"{show_clock(seen.at)}  {saying.text}; {_in_words(seen.figure, self._units)}")

    def refused(self, at: float, text: str, why: str) -> None:
        """A word meant nothing just then."""
        self._line(
            {"at_seconds": round(at, 3), "event": "refused", "text": text, "why": why}, f"{show_clock(at)}  {why}"
        )

    def trouble(self, at: float, what: str) -> None:
        """Something is wrong with the log or the probe, and the sitting goes on."""
        self._line({"at_seconds": round(at, 3), "event": "trouble", "text": what}, f"{show_clock(at)}  trouble: {what}")

    def closing(self, at: float, summary: Summary | None) -> None:
        """The sitting has been put away; None where nothing of it is kept."""
        if summary is None:
            self._line({"at_seconds": round(at, 3), "event": "not kept"}, NOTHING_KEPT)
            return
        state = summary.state.value
        record = {"at_seconds": round(at, 3), "event": "put away", "id": summary.id, "state": state}
        self._line(record, f"{state}; see it with: heatbook log show {summary.id}{or_go_on(summary)}")

    def _line(self, record: dict[str, Any], text: str) -> None:
        self._say(json.dumps(_in_order(record)) if self._json else text)


def _in_words(figure: MainFigure, units: Units) -> str:
    """A modelled time with its range: "hammer time, edge 9 s, 5 to 13, modelled"."""
    seconds = "" if figure.as_clock else " s"
    label = "the rest" if figure.kind is MainFigureKind.THIN_COLD else figure.label
    return f"{label} {figure.text(units)}{seconds}, {figure.range_text}, {figure.basis.value}"


def _in_record(figure: MainFigure) -> dict[str, Any]:
    return {
        "figure": figure.label,
        "modelled_seconds": _tenths(figure.seconds),
        "modelled_seconds_least": _tenths(figure.least),
        "modelled_seconds_most": _tenths(figure.most),
    }


def _tenths(seconds: float | None) -> float | None:
    return None if seconds is None else round(seconds, 1)


def _in_order(record: dict[str, Any]) -> dict[str, Any]:
    """Time and event first, for whoever reads along."""
    return {key: record[key] for key in ("at_seconds", "event")} | record


def _where(begun: Begun, sitting: Sitting, units: Units) -> str:
    """Step, heat and phase that began, in words."""
    step = sitting.plan.steps[begun.step]
    count = f", {step.counts} {begun.heat} of {max(begun.heat, sitting.heats_planned(begun.step))}"
    return f"step {begun.step + 1} {in_units(step.title, units)}{count}: {begun.phase.row.report}"


def _what(word: Word, sitting: Sitting) -> str:
    """What undo took back just now, or redo brought back; empty where undo only let go of a question."""
    return taken_back(sitting.state) if word is Word.UNDO else last_word(sitting.state)


def _said(event: Event, sitting: Sitting, units: Units) -> str:
    match event:
        case Begun():
            return _where(event, sitting, units)
        case Said(word=(Word.UNDO | Word.REDO) as word):
            what, now = _what(word, sitting), _where(sitting.state.last_begun, sitting, units)
            done = "taken back" if word is Word.UNDO else "it holds again"
            return f"word: {word}{what and f'; {done}: {what}'}; {'back' if word is Word.UNDO else 'now'} at {now}"
        case Called(call=call):
            parts = about(event, units)
            at = f" ({', '.join(parts)})" if parts else ""
            return f"{call.value.upper()}: {call.row.advice}{at}"
        case Said(word=Word.NOTE, text=text):
            return f"note: {text}"
        case Said(word=Word.MEASURED):
            return f"measured {measured_by(event, sitting.plan, sitting.state, units)}"
        case Said(word=Word.TICK, text=text):
            tick = read_tick(text)
            assert tick.step is not None
            return tick_line(sitting.plan, sitting.state, tick.step, tick.item, units)
        case Said(word=word):
            return f"word: {word.value}"
        case Eased(call=call):
            return f"no longer {call.value}"
        case LeftFire():
            return "out of the fire, into the quench"
        case WentOn():
            return "went on after a break"
        case Asked(word=word):
            return f"{word}? {question(event, units)}, no sooner than {ECHO:g} s from now"
        case Ended():
            return "the sitting is finished"
