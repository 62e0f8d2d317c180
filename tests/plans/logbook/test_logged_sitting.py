"""A running sitting: logged as it goes, put away, gone on with."""

from __future__ import annotations

import json
import re
from collections.abc import Callable
from contextlib import AbstractContextManager
from dataclasses import replace
from datetime import datetime, timedelta
from functools import partial
from pathlib import Path
from typing import Any

import pytest

from plans.errors import PlanError
from plans.logbook.book import Logbook
from plans.logbook.errors import LogbookError
from plans.logbook.figures.heats import heat_figures
from plans.logbook.figures.learned import learn
from plans.logbook.figures.of_a_sitting import SittingFigures
from plans.logbook.figures.steel_cost import cost
from plans.logbook.journal.reading_back import read_journal
from plans.logbook.logged_sitting import LoggedSitting, work_out
from plans.logbook.measuring_later import measured_at
from plans.logbook.reviewing.timeline import Timeline
from plans.logbook.summary import Progress, Summary
from plans.phase import PhaseKind
from plans.plan import Plan
from plans.reader import read_plan
from plans.reading import ProbeOn, Reading
from plans.shapes import Section
from plans.shop import Shop
from plans.sitting.as_measured import plan_as_measured
from plans.sitting.calls import Call
from plans.sitting.engine import Sitting
from plans.sitting.events import Begun, Called, Said, Tick, WentOn, Word
from plans.sitting.words import WordError
from plans.units import Units

ICE = 273.15


def lines(running: LoggedSitting) -> list[Any]:
    """What the journal on the disk tells, without its header and its checksums."""
    return [json.loads(line)[1] for line in running.journal.path.read_text().splitlines()[1:]]


def worked_out(sitting: Sitting) -> SittingFigures:
    """What the log keeps of it."""
    return replace(heat_figures(sitting), cost=cost(sitting), learned=learn(sitting), learning_done=True)


@pytest.fixture
def begun(book: Logbook, trial: Plan, started: datetime) -> LoggedSitting:
    return LoggedSitting.begin(book, trial, started, ProbeOn.WORK, profile="plain", port="/dev/ttyX")


def weld(running: LoggedSitting) -> None:
    """Into the fire at 1 s, up to 1260 degC until 200 s, out and struck until it is too cold at about 210 s."""
    running.take(Said(1.0, Word.NEXT))
    for count in range(800):
        running.take(Reading(1 + count / 4, 1260 + ICE))
    running.take(Said(201.0, Word.OUT))
    for count in range(40):
        running.take(Reading(201 + count / 4, 1100 + ICE))


def test_what_is_known_at_the_beginning_is_kept(begun: LoggedSitting, book: Logbook, started: datetime) -> None:
    head = begun.journal.header
    assert (head.plan, head.probe_on, head.profile, head.port) == ("trial", ProbeOn.WORK, "plain", "/dev/ttyX")
    assert (head.started, head.rehearsal, head.seed) == (started, False, None)
    assert begun.id == head.id == book.summaries()[0].id
    assert book.summaries()[0].state is Progress.RUNNING
    assert [line["event"] for line in lines(begun)] == ["phase"]


def test_a_seed_makes_a_rehearsal_of_it(book: Logbook, trial: Plan, started: datetime) -> None:
    running = LoggedSitting.begin(book, trial, started, seed=0)
    assert (running.journal.header.rehearsal, running.journal.header.seed) == (True, 0)


def test_an_event_is_on_the_disk_before_anybody_hears_of_it(begun: LoggedSitting) -> None:
    events = begun.take(Said(2.0, Word.NEXT))
    assert events == [Said(2.0, Word.NEXT), Begun(2.0, 0, 1, PhaseKind.FIRE)]
    assert [line.get("word", line.get("phase")) for line in lines(begun)] == ["ready", "next", "fire"]


def test_readings_wait_for_the_next_flush_or_event(begun: LoggedSitting) -> None:
    assert begun.take(Reading(0.5, 293.15)) == []
    assert len(lines(begun)) == 1
    begun.flush()
    assert lines(begun)[1:] == [[500, 200]]
    begun.take(Reading(0.75, None, "open"))
    begun.take(Said(1.0, Word.NEXT))
    assert lines(begun)[2] == [750, None, "open"]


def test_only_what_came_of_it_is_handed_back(begun: LoggedSitting) -> None:
    weld(begun)
    events = begun.take(Tick(230.0))
    assert [type(event) for event in events] == [Called]
    assert events[0].call is Call.PROBE_LOST  # type: ignore[union-attr]
    assert begun.take(Tick(231.0)) == []


def test_a_word_that_means_nothing_leaves_no_trace(begun: LoggedSitting) -> None:
    before = lines(begun)
    with pytest.raises(WordError):
        begun.take(Said(1.0, Word.OUT))
    begun.flush()
    assert lines(begun) == before


def test_put_away_when_it_is_done(begun: LoggedSitting, book: Logbook) -> None:
    weld(begun)
    begun.take(Said(212.0, Word.FINISH))
    live = worked_out(begun.sitting)
    summary = begun.put_away()
    assert (summary.state, summary.heats, summary.calls) == (Progress.FINISHED, 1, len(live.calls))
    assert not begun.journal.path.exists()
    kept = book.load(begun.id)
    assert kept.figures == live
    assert kept.ended == kept.header.started + timedelta(seconds=212)
    with pytest.raises(LogbookError, match="is finished"):
        LoggedSitting.go_on(book, begun.id, kept.ended)


def test_worked_out_from_the_log_alone_it_is_the_same(begun: LoggedSitting, book: Logbook) -> None:
    weld(begun)
    begun.take(Said(212.0, Word.FINISH))
    live = worked_out(begun.sitting)
    assert live.steps[0].heats[0].too_cold > 5
    begun.put_away()
    kept = book.load(begun.id)
    worked = work_out(kept.header, kept.log)
    assert worked.figures == live == kept.figures
    # The log keeps tenths.
    assert list(worked.skin.kelvins) == pytest.approx(list(kept.skin.kelvins), abs=0.051)
    assert worked.middle.times == kept.middle.times


def test_the_modelled_trace_has_a_point_a_second(begun: LoggedSitting, book: Logbook) -> None:
    weld(begun)
    begun.take(Said(212.0, Word.FINISH))
    begun.put_away()
    skin = book.load(begun.id).skin
    assert list(skin.times) == [float(second) for second in range(1, 213)]
    assert skin[99].kelvin == pytest.approx(1260 + ICE, abs=0.1)


def test_cut_off_it_is_worked_out_all_the_same(begun: LoggedSitting, book: Logbook, folder: Path) -> None:
    weld(begun)
    begun.take(Said(212.0, Word.FINISH))
    live = worked_out(begun.sitting)
    book.close()
    after = Logbook(folder)
    (found,) = after.recover(work_out)
    assert (found.summary.state, after.load(begun.id).figures) == (Progress.FINISHED, live)
    after.close()


def test_gone_on_with_the_time_in_between_is_counted(begun: LoggedSitting, book: Logbook, started: datetime) -> None:
    """Left at 335 s in the fire, back within 20 s, out a minute later: in the fire for 409 s."""
    begun.take(Said(1.0, Word.NEXT))
    begun.take(Reading(335.0, 1200 + ICE))
    assert begun.put_away().state is Progress.UNFINISHED

    running = LoggedSitting.go_on(book, begun.id, started + timedelta(seconds=350))
    assert running.id == begun.id
    assert running.sitting.now == 350.0
    assert running.sitting.state.phase is PhaseKind.SOAK, "the fire went on warming it meanwhile"
    running.take(Said(410.0, Word.OUT))
    running.take(Said(411.0, Word.FINISH))
    assert heat_figures(running.sitting).steps[0].heats[0].in_fire == 409.0
    running.put_away()

    kept = book.load(begun.id)
    assert kept.state is Progress.FINISHED
    assert [event.at for event in kept.log.events if isinstance(event, WentOn)] == [350.0]
    assert kept.header.went_on == ((350.0, started + timedelta(seconds=350)),)
    assert kept.ended == started + timedelta(seconds=411)
    assert list(kept.log.readings.times) == [335.0]
    assert kept.figures is not None
    assert kept.figures.calls[0].call is Call.PROBE_LOST


def test_after_a_long_break_nobody_believes_that_it_lay_in_the_fire(
    begun: LoggedSitting, book: Logbook, started: datetime
) -> None:
    begun.take(Said(1.0, Word.NEXT))
    begun.take(Tick(100.0))
    begun.take(Said(100.0, Word.NOTE, "lunch"))
    begun.put_away()

    running = LoggedSitting.go_on(book, begun.id, started + timedelta(hours=3))
    state = running.sitting.state
    assert (state.phase, state.paused) == (PhaseKind.FIRE, True)
    assert running.sitting.warm.middle[-1] == pytest.approx(20 + ICE, abs=5), "it has cooled"
    running.take(Said(3 * 3600 + 10.0, Word.RESUME))
    running.take(Said(3 * 3600 + 20.0, Word.FINISH))
    assert heat_figures(running.sitting).steps[0].heats[0].in_fire == 99.0 + 10.0


def test_a_clock_that_is_behind_does_not_tell_how_long_nobody_was_there(
    begun: LoggedSitting, book: Logbook, started: datetime
) -> None:
    begun.take(Said(1.0, Word.NEXT))
    begun.take(Tick(100.0))
    begun.put_away()
    running = LoggedSitting.go_on(book, begun.id, started - timedelta(days=3))
    state = running.sitting.state
    assert (state.phase, state.paused, running.sitting.now) == (PhaseKind.FIRE, True, 100.0)
    running.take(Said(105.0, Word.RESUME))
    running.put_away()
    assert book.load(begun.id).summary.state is Progress.UNFINISHED


def test_what_was_done_after_the_last_entry_is_not_lost(book: Logbook, trial: Plan, started: datetime) -> None:
    """Without a probe nothing is logged from the word on: left after 25 s of striking, back after lunch."""
    running = LoggedSitting.begin(book, trial, started)
    running.take(Said(1.0, Word.NEXT))
    running.take(Said(301.0, Word.OUT))
    said = running.take(Tick(326.0))
    assert book.load("last").log.last_at < 326, f"nothing comes of time alone but {said}"
    running.put_away()
    running = LoggedSitting.go_on(book, "last", started + timedelta(hours=3))
    state = running.sitting.state
    assert (state.paused_at, state.breaks) == (326.0, [(326.0, 3 * 3600.0)])
    running.take(Said(3 * 3600 + 60.0, Word.RESUME))
    running.take(Said(3 * 3600 + 70.0, Word.FINISH))
    assert heat_figures(running.sitting).steps[0].heats[0].strike == 25.0 + 10.0
    running.put_away()
    # 326 s, then a minute of pause and 10 s more.
    assert book.load("last").summary.seconds == 396.0


@pytest.mark.parametrize(
    ("words", "phase"),
    [
        ([], PhaseKind.READY),
        ([Word.ON, Word.ON, Word.NEXT, Word.OUT], PhaseKind.AIR),
        ([Word.ON, Word.ON, Word.ON], PhaseKind.BENCH),
    ],
)
def test_a_night_is_no_part_of_the_sitting_whatever_went_on(
    book: Logbook, trial: Plan, started: datetime, words: list[Word], phase: PhaseKind
) -> None:
    running = LoggedSitting.begin(book, trial, started)
    for word in words:
        running.take(Said(0.0, word))
    running.take(Tick(100.0))
    running.put_away()
    running = LoggedSitting.go_on(book, "last", started + timedelta(hours=10))
    state = running.sitting.state
    assert (state.phase, state.paused) == (phase, False), "no word more is needed than before"
    at = running.sitting.now
    assert state.clock(100.0) == state.clock(at) == 100.0
    running.take(Said(at + 60.0, Word.FINISH))
    heats = heat_figures(running.sitting).heats
    assert [heat.air for heat in heats] == ([160.0] if phase is PhaseKind.AIR else [])
    summary = running.put_away()
    assert summary.seconds == 160.0
    assert Summary.from_record(summary.to_record()) == summary


def test_a_pause_is_a_part_of_the_sitting(book: Logbook, trial: Plan, started: datetime) -> None:
    running = LoggedSitting.begin(book, trial, started)
    running.take(Said(1.0, Word.NEXT))
    running.take(Said(10.0, Word.PAUSE))
    running.take(Said(1810.0, Word.RESUME))
    running.take(Said(1815.0, Word.FINISH))
    assert heat_figures(running.sitting).heats[0].in_fire == 14.0
    assert running.put_away().seconds == 1815.0


def test_a_set_time_runs_on_while_nobody_is_there(book: Logbook, started: datetime) -> None:
    oven = '[[step]]\ntitle = "T"\nkind = "temper"\n[step.oven]\nat = "200 degC"\nfor = "2 h"\n'
    plan = read_plan(f'heatbook = 1\ntitle = "T"\n{oven}', "oven", "oven.toml")
    running = LoggedSitting.begin(book, plan, started)
    running.take(Said(1.0, Word.NEXT))
    running.take(Tick(100.0))
    running.put_away()
    running = LoggedSitting.go_on(book, "last", started + timedelta(hours=1))
    running.take(Said(3601.0, Word.FINISH))
    assert heat_figures(running.sitting).heats[0].hold == 3600.0
    assert running.put_away().seconds == 3601.0


def test_gone_on_with_twice(book: Logbook, trial: Plan, started: datetime) -> None:
    running = LoggedSitting.begin(book, trial, started)
    running.take(Said(10.0, Word.NEXT))
    running.put_away()
    for hours in (1, 2):
        running = LoggedSitting.go_on(book, "last", started + timedelta(hours=hours))
        running.take(Said(hours * 3600 + 5.0, Word.NOTE, f"again {hours}"))
        running.put_away()
    kept = book.load("last")
    assert [at for at, _ in kept.header.went_on] == [3600.0, 7200.0]
    assert kept.figures is not None
    assert [note.at for note in kept.figures.notes] == [3605.0, 7205.0]


def test_what_was_measured_since_it_was_left_is_said_as_it_is_gone_on_with(
    folder: Path, book: Logbook, started: datetime
) -> None:
    steps = (
        '[[step]]\ntitle = "Draw"\nkind = "draw"\nfire = "1150 degC"\nheat_to = "1100 degC"\nkeep_above = "850 degC"\n'
        'heats = 1\nsection = "20 x 20 mm"\nlength = "100 mm"\nreach = "30 x 10 mm"\n'
        '[[step]]\ntitle = "Normalize"\nkind = "normalize"\nfire = "870 degC"\nheat_to = "850 degC"\n'
    )
    running = LoggedSitting.begin(book, read_plan(f'heatbook = 1\ntitle = "T"\n{steps}', "two", "two.toml"), started)
    for at, word in ((1.0, Word.NEXT), (200.0, Word.OUT), (220.0, Word.ON)):
        running.take(Said(at, word))
    running.put_away()
    since = started + timedelta(minutes=20)
    for text in ("step 1 w 32 t 9 l 139", "step 1 t 9.5"):
        book.amend("last", partial(measured_at, step=None, text=text, units=Units.METRIC, now=since))
    # Cut off before anything else happens, and gone on with once more: nothing is said twice.
    LoggedSitting.go_on(book, "last", started + timedelta(hours=1))
    book.close()
    running = LoggedSitting.go_on(Logbook(folder), "last", started + timedelta(hours=2))
    words = [one.text for one in running.journal.log.events if isinstance(one, Said) and one.word is Word.MEASURED]
    assert words == ["step 1 w 32 mm t 9 mm l 139 mm", "step 1 t 9.5 mm"]
    step = plan_as_measured(running.sitting.plan, running.sitting.state).steps[1]
    assert (step.section, step.length) == (Section.flat(0.032, 0.0095), 0.139)
    assert running.sitting.warm.section == Section.flat(0.032, 0.0095)
    running.take(Said(7300.0, Word.UNDO))
    running.put_away()
    kept = Logbook(folder).load("last")
    assert kept.measured_later is not None
    assert kept.measured_later.standing == (), "the log has it, and there it was taken back"
    timeline = Timeline.of(kept)
    assert [one.measured.thickness for one in timeline.state.measurements] == [0.009]


def _cooled(book: Logbook, trial: Plan, started: datetime, shop: Shop) -> LoggedSitting:
    """Without a probe: five minutes in the fire, ten seconds on the anvil."""
    running = LoggedSitting.begin(book, trial, started, shop=shop)
    running.take(Said(1.0, Word.NEXT))
    running.take(Said(300.0, Word.OUT))
    running.take(Tick(310.0))
    return running


def test_the_shop_that_it_went_by_comes_back_after_a_crash(folder: Path, trial: Plan, started: datetime) -> None:
    shop = Shop(1.4)
    cut_off = _cooled(book := Logbook(folder), trial, started, shop)
    skin = cut_off.sitting.warm.skin
    book.close()
    again = Logbook(folder)
    again.recover(work_out)
    kept = again.load("last")
    assert kept.header.shop == shop
    assert kept.log.last_at > 305, "struck too cold"
    assert list(kept.skin.kelvins) == pytest.approx(skin[1::2][: len(kept.skin)].tolist(), abs=0.06)
    gone_on = LoggedSitting.go_on(again, "last", started + timedelta(seconds=311))
    assert gone_on.sitting.shop == shop
    assert gone_on.sitting.warm.skin[: len(skin)] == skin
    ours = _cooled(Logbook(folder.with_name("another")), trial, started, Shop())
    assert gone_on.sitting.warm.skin[619] < ours.sitting.warm.skin[619] - 10
    gone_on.put_away()
    again.close()
    ours.put_away()


SHOP = re.compile(r'"shop":\{"cooling_factor":1\.0,[^}]*\},')


@pytest.mark.parametrize("instead", ["", '"shop":{"cooling_factor":1.0},'], ids=["no shop", "one factor"])
@pytest.mark.parametrize("where", ["document", "journal"])
def test_sittings_from_before_there_was_a_shop_or_all_of_its_figures_still_open(
    folder: Path, trial: Plan, started: datetime, where: str, instead: str
) -> None:
    running = _cooled(book := Logbook(folder), trial, started, Shop())
    skin = running.sitting.warm.skin
    path = running.journal.path
    if where == "document":
        path = path.with_suffix(".json")
        running.put_away()
    book.close()
    first, newline, rest = path.read_text().partition("\n")
    without = SHOP.sub(instead, first)
    assert without != first
    if where == "journal":
        without = without[len('["1a2b3c4d",') : -1]  # nor did a first line have a checksum then
    path.write_text(without + newline + rest)
    again = Logbook(folder)
    again.recover(work_out)
    assert again.messages == []
    gone_on = LoggedSitting.go_on(again, "last", started + timedelta(seconds=311))
    assert gone_on.sitting.shop == Shop()
    assert gone_on.sitting.warm.skin[: len(skin)] == skin
    again.close()


def test_a_clock_that_was_set_back_does_not_turn_time_back(
    begun: LoggedSitting, book: Logbook, started: datetime
) -> None:
    weld(begun)
    begun.put_away()
    running = LoggedSitting.go_on(book, begun.id, started - timedelta(hours=1))
    assert running.sitting.now == 210.75
    assert running.take(Said(211.0, Word.NEXT))[0].at == 211.0


def test_undo_reaches_over_the_break(begun: LoggedSitting, book: Logbook, started: datetime) -> None:
    begun.take(Said(1.0, Word.NEXT))
    begun.put_away()
    running = LoggedSitting.go_on(book, begun.id, started + timedelta(seconds=15))
    running.take(Said(16.0, Word.UNDO))
    assert running.sitting.state.phase is PhaseKind.READY


def test_a_plan_that_this_version_cannot_read_is_told(
    book: Logbook, plan: Plan, started: datetime, folder: Path
) -> None:
    """The plan of this sitting has no steps in its text; its log is kept whatever becomes of it."""
    journal = book.open_sitting(plan, started)
    journal.event(Begun(0.0, 0, 1, PhaseKind.READY))
    book.fold(journal, work_out)
    assert book.load("last").figures is None
    assert any("can't be worked out" in message for message in book.messages)
    with pytest.raises(PlanError, match="sitting 20261125-091502-drawknife, its plan"):
        LoggedSitting.go_on(book, "last", started)
    assert not list(folder.rglob("*.jsonl"))


def test_a_disk_that_fills_up_is_told_and_nothing_is_lost(
    begun: LoggedSitting, book: Logbook, files_up_to: Callable[[int], AbstractContextManager[None]]
) -> None:
    assert begun.trouble is None
    with files_up_to(begun.journal.path.stat().st_size + 10):
        weld(begun)
        assert begun.trouble is not None
        with pytest.raises(LogbookError):
            begun.put_away()
    begun.take(Said(212.0, Word.FINISH))
    assert begun.trouble is None
    begun.put_away()
    assert len(book.load(begun.id).log.readings) == 840


@pytest.fixture
def in_the_way(begun: LoggedSitting, folder: Path) -> LoggedSitting:
    """A sitting whose logbook was moved away, with a file in its place, so that nothing can be written there."""
    folder.rename(folder.with_name("away"))
    folder.write_text("mine")
    begun.take(Said(2.0, Word.NEXT))
    assert begun.trouble is not None
    return begun


def test_a_rescue_copy_is_its_owners_alone_and_follows_no_link(
    in_the_way: LoggedSitting, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("HOME", str(tmp_path))
    victim = tmp_path / "victim"
    victim.write_text("mine")
    (tmp_path / f"{in_the_way.id}.jsonl").symlink_to(victim)
    copy = tmp_path / f"{in_the_way.id}.2.jsonl"
    with pytest.raises(LogbookError, match=re.escape(f"The whole log is in {copy}: once that is mended, move it")):
        in_the_way.put_away()
    assert victim.read_text() == "mine"
    assert copy.stat().st_mode & 0o777 == 0o600
    assert list(read_journal(copy).log) == list(in_the_way.journal.log)


def test_where_nobody_knows_the_home_the_rescue_copy_goes_to_the_temporary_folder(
    in_the_way: LoggedSitting, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def nobody(user: int) -> None:
        raise KeyError(user)

    monkeypatch.delenv("HOME")
    monkeypatch.setattr("pwd.getpwuid", nobody)
    monkeypatch.setattr("tempfile.tempdir", str(tmp_path))
    with pytest.raises(LogbookError, match=re.escape(str(tmp_path / f"{in_the_way.id}.jsonl"))):
        in_the_way.put_away()
    assert len(read_journal(tmp_path / f"{in_the_way.id}.jsonl").log) > 1


def test_what_became_of_the_log_is_said_once(begun: LoggedSitting, book: Logbook) -> None:
    begun.journal.path.unlink()
    begun.flush()
    book.messages.append("another thing")
    assert ["moved or removed" in news for news in begun.news()] == [True, False]
    assert begun.news() == []
