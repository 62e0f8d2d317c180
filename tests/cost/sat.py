"""Logbooks of sittings of two hours at 1 Hz with a probe, full of what a smith leaves in one, for measuring on them.

A few are played in lock-step with a simulated smith, and the others are variants of those: other days, words, figures
and outcomes, and readings that are a little higher or lower all through. Each is read back and checked as it is made.
"""

from __future__ import annotations

import shutil
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from pathlib import Path
from random import Random

from devices.rehearsal.smithy import Smithy
from plans.logbook import (
    Flaw,
    Grain,
    Header,
    HeatFigures,
    KeptSitting,
    Label,
    Log,
    Logbook,
    Outcome,
    Progress,
    SittingLessons,
    ties_of,
    work_out,
)
from plans.logbook.disk.whole_files import to_json
from plans.logbook.document import from_document, to_document
from plans.logbook.sitting_files import tables_of
from plans.plan import Plan, StepKind
from plans.reader import find_plan
from plans.reading import ProbeOn, Reading
from plans.sitting import Event, Hands, Said, Sitting, Tick, Word, WordError
from plans.trace import Trace
from plans.units import ZERO_CELSIUS

PLANS = ("drawknife", "kitchen-billet", "twisted-core", "splitting-wedge", "folded-knife", "harden-1084")
SECONDS = 7200
"""How long each is [s]."""
_STARTED = datetime(2025, 11, 3, 8, 30, tzinfo=UTC)
_EVERY = timedelta(hours=9)
_PLAYED_OF_EACH = 4
"""How many of each plan are played, at most; the rest are variants."""
_NOTES = (
    "scale came off in plates before the second heat",
    "seam opened a little at the tang end, closed again with flux",
    "fire sits lower on the burner's side",
    "gas ran low, the pressure fell by a third",
    "edge ran ahead of the back",
    "cold shut at the corner, ground out",
)
_LESSONS = (
    "flux sooner, at dull red",
    "turn the bar round between two heats",
    "three blows fewer at the point",
    "brush before flux, not after",
)


def home_of(place: Path, count: int) -> Path:
    """A folder for HEATBOOK_HOME whose logbook has this many sittings; one that was made whole before is taken again.

    Args:
        place: where it is made, in a folder of its own
        count: how many sittings; those of a smaller logbook are the first of a larger one
    """
    home = place / str(count)
    if (home / "heatbook.toml").exists():
        return home
    shutil.rmtree(home, ignore_errors=True)
    logbook = Logbook(home / "logbook")
    sittings = home / "logbook" / "sittings"
    sittings.mkdir(parents=True)
    for kept in sat(count):
        (sittings / f"{kept.header.id}.json").write_bytes(to_json(tables_of(kept)))
    assert len(logbook.summaries()) == count  # which makes the index
    logbook.recall()  # and the file of all lessons
    assert not logbook.messages, logbook.messages
    logbook.close()
    (home / "plans").mkdir()
    (home / "heatbook.toml").touch()  # the last, so that what was broken off is made anew
    return home


def sat(count: int) -> Iterator[KeptSitting]:
    """So many sittings, the oldest first; the same ones each time."""
    played: list[KeptSitting] = []
    for number in range(count):
        chance = Random(number)
        if number < _PLAYED_OF_EACH * len(PLANS):
            played.append(_played(PLANS[number % len(PLANS)], number))
        kept = _told(_varied(played[number % len(played)], number, chance), chance)
        read = from_document(to_document(kept))
        assert read.misfit == read.unread == ""
        yield read


def _played(name: str, seed: int) -> KeptSitting:
    """A sitting played with a simulated smith, who measures after each heat that he struck."""
    plan = find_plan(name, None)
    smithy, sitting, chance = Smithy(plan, seed), Sitting(plan, ProbeOn.WORK, Hands()), Random(seed)
    log = Log(sitting.open())

    def hear(said: Said) -> None:
        for entry in sitting.take(said):
            log.append(entry)

    while not sitting.state.finished and smithy.at < SECONDS:
        smithy.moment = 1.0  # a long wait is not hurried through: the probe goes on to tell
        lines = smithy.on()
        at, heat = smithy.at, (sitting.state.step, sitting.state.heat)
        for entry in sitting.take(Reading(at, float(lines[-1]) + ZERO_CELSIUS) if lines else Tick(at)):
            log.append(entry)
        smithy.answer(at, sitting, hear)
        if heat != (sitting.state.step, sitting.state.heat):
            with suppress(WordError):
                hear(Said(at, Word.MEASURED, f"w {chance.uniform(20, 40):.1f} t {chance.uniform(8, 20):.1f}"))
            if chance.random() < 0.2:
                hear(Said(at, Word.NOTE, chance.choice(_NOTES)))
    if len(log.readings) < 0.9 * SECONDS:  # done too soon
        return _played(name, seed + 1000)
    header = Header(
        "20251103-083000-x", name, plan.title, plan.source, _STARTED, "bare-celsius", "/dev/ttyUSB0", ProbeOn.WORK
    )
    worked = work_out(header, log)
    state = Progress.FINISHED if log.ended else Progress.UNFINISHED
    return KeptSitting(header, log, state, worked.figures, worked.skin, worked.middle)


def _varied(kept: KeptSitting, number: int, chance: Random) -> KeptSitting:
    """A sitting of another day: its readings a little off, its times in each heat too, and other notes."""
    started = _STARTED + _EVERY * number
    offset = round(chance.uniform(-8.0, 8.0), 1)
    texts: dict[float, str] = {}
    events: list[Event] = []
    for event in kept.log.events:
        if isinstance(event, Said) and event.word is Word.NOTE:
            texts[event.at] = chance.choice(_NOTES)
            event = replace(event, text=texts[event.at])
        events.append(event)
    readings = Trace(
        one if one.kelvin is None else replace(one, kelvin=one.kelvin + offset) for one in kept.log.readings
    )
    before = [kept.log.readings_before(index) for index in range(len(events))]
    figures = kept.figures
    assert figures is not None
    slower = chance.uniform(0.9, 1.1)
    steps = tuple(
        replace(step, heats=tuple(_off(heat, offset, slower) for heat in step.heats)) for step in figures.steps
    )
    notes = tuple(replace(note, text=texts[note.at]) for note in figures.notes)
    header = replace(kept.header, id=f"{started:%Y%m%d-%H%M%S}-{kept.header.plan}", started=started)
    return replace(
        kept,
        header=header,
        log=Log.of(events, Trace(readings), before),
        figures=replace(figures, steps=steps, notes=notes),
    )


def _off(heat: HeatFigures, offset: float, slower: float) -> HeatFigures:
    peak, leaving, lowest = (
        None if kelvin is None else kelvin + offset for kelvin in (heat.peak, heat.leaving, heat.lowest_struck)
    )
    times = {
        name: round(getattr(heat, name) * slower, 3)
        for name in ("in_fire", "soak", "strike", "air", "hold", "too_cold")
    }
    return replace(heat, peak=peak, leaving=leaving, lowest_struck=lowest, **times)


def _told(kept: KeptSitting, chance: Random) -> KeptSitting:
    """A sitting with what its smith said of it afterwards: of most an outcome, of some a lesson, a mark, a title."""
    plan, now = find_plan(kept.header.plan, None), kept.header.started + timedelta(days=2)
    label = Label().put_by(chance.random() < 0.05)
    label = label.marked(chance.choice(("gift", "sold", "keep"))) if chance.random() < 0.1 else label
    label = label.titled("For the orchard") if chance.random() < 0.05 else label
    lessons = SittingLessons()
    for text in chance.sample(_LESSONS, 2 if chance.random() < 0.2 else 0):
        step = chance.randrange(len(plan.steps))
        _, tie = chance.choice(list(ties_of(plan, step)))
        lessons = lessons.learned(text, tie, step, now, plan.name)
    return replace(
        kept,
        label=label,
        outcome=_outcome(plan, chance, now) if chance.random() < 0.8 else None,
        lessons=None if lessons == SittingLessons() else lessons,
    )


def _outcome(plan: Plan, chance: Random, now: datetime) -> Outcome:
    outcome = Outcome(
        warp=round(chance.uniform(0, 3), 1) / 1000,
        cracked=chance.random() < 0.05,
        grain=chance.choice(list(Grain)),
        rating=chance.randint(1, 5),
        changed=now,
    )
    for number, step in enumerate(plan.steps):
        if step.kind is StepKind.WELD:
            flaws = (chance.choice(list(Flaw)),) if chance.random() < 0.15 else ()
            outcome = outcome.with_weld(number, flaws)
    return outcome
