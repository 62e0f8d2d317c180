"""Beginning a sitting and going on with one: one order of doing it, by whichever way it is asked for."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from devices.errors import DeviceError
from devices.profile_reader import read_profile
from devices.rehearsal import Rehearsal
from plans.errors import PlanError
from plans.logbook.book import Logbook
from plans.logbook.errors import LogbookError
from plans.logbook.summary import Progress
from plans.phase import PhaseKind
from plans.plan import Phase, Plan, StepKind
from plans.reading import ProbeOn
from plans.shop import Shop
from plans.sitting.events import Said, Word
from plans.sitting.hands import HandsFree
from tui.config.settings import PedalSetting, ProbeSetting, Settings
from tui.running.begin import begin_sitting
from tui.running.requests import LogList, RunRequest, Shelf, plan_called, recording_of, rehearsal_of, sitting_of
from tui.running.running_sitting import RunningSitting
from tui.running.sources import ClockSource, Delivered, ProbeSource, RecordingSource
from tui.screens.told import Told

if TYPE_CHECKING:
    from tests.tui.conftest import StageMaker
    from tests.tui.running.conftest import ToldSource

Another = Callable[[Plan], "ToldSource"]
Ask = Callable[..., Any]
STARTED = datetime(2026, 3, 14, 9, 15, 2, tzinfo=UTC)
PEDAL = Settings(pedal=PedalSetting(line="cts"))


def sit(
    request: RunRequest, book: Logbook, settings: Settings = PEDAL, later: float = 0.0, shop: str = ""
) -> RunningSitting:
    """Begin it, `later` seconds after the tests' start, with `shop` in the shop file."""
    file = book.folder.parent / "shop.toml"
    file.write_text(shop)
    told: list[Delivered] = []
    return begin_sitting(request, book, settings, file, told.append, lambda: STARTED + timedelta(seconds=later))


# The order


def test_the_pedal_hangs_on_the_port_before_it_is_opened_and_time_begins_with_the_sitting(
    book: Logbook, plan: Plan, source: ToldSource
) -> None:
    sit(RunRequest(lambda _: source, plan=lambda: plan), book)
    assert source.asked == ["watch line", "start", "set time 0"]


def test_the_clock_of_a_sitting_gone_on_with_is_set_before_its_link_starts(
    book: Logbook, plan: Plan, source: ToldSource, another: Another
) -> None:
    first = sit(RunRequest(another, plan=lambda: plan), book)
    first.say(Word.NOTE, "begun")
    first.put_away()
    sit(RunRequest(lambda _: source, go_on=first.id), book, later=60)
    assert source.asked == ["watch line", "set time 60", "start"]


def test_what_it_takes_to_open_the_port_is_no_time_of_the_sitting(
    book: Logbook, plan: Plan, source: ToldSource, tmp_path: Path
) -> None:
    wall = [STARTED]

    def slow(_: Plan) -> ToldSource:
        wall[0] += timedelta(seconds=5)
        return source

    def begin(request: RunRequest) -> RunningSitting:
        return begin_sitting(request, book, Settings(), tmp_path / "shop.toml", lambda _: None, lambda: wall[0])

    first = begin(RunRequest(slow, plan=lambda: plan))
    assert first.logged.journal.header.started == STARTED + timedelta(seconds=5)
    first.say(Word.NOTE, "begun")
    first.put_away()
    wall[0] += timedelta(seconds=60)
    source.asked.clear()
    begin(RunRequest(slow, go_on=first.id))
    assert source.asked == ["set time 65", "start"]


def test_a_port_that_cannot_be_opened_leaves_no_sitting_and_is_closed(
    book: Logbook, plan: Plan, source: ToldSource
) -> None:
    source.shut = True
    with pytest.raises(DeviceError, match="/dev/shut"):
        sit(RunRequest(lambda _: source, plan=lambda: plan), book)
    assert source.asked[-2:] == ["start", "close"]
    assert book.summaries() == []


def test_a_plan_that_cannot_be_read_opens_nothing(book: Logbook, source: ToldSource) -> None:
    with pytest.raises(PlanError, match="nosuch"):
        sit(RunRequest(lambda _: source, plan=lambda: plan_called("nosuch")), book)
    assert source.asked == []
    assert book.summaries() == []


def test_a_sitting_that_cannot_be_gone_on_with_for_its_port_stays_unfinished(
    book: Logbook, plan: Plan, source: ToldSource, another: Another
) -> None:
    first = sit(RunRequest(another, plan=lambda: plan), book)
    first.say(Word.NOTE, "begun")
    first.put_away()
    source.shut = True
    with pytest.raises(DeviceError, match="/dev/shut"):
        sit(RunRequest(lambda _: source, go_on=first.id), book)
    assert source.asked[-1] == "close"
    assert [(one.id, one.state) for one in book.summaries()] == [(first.id, Progress.UNFINISHED)]


def test_a_logbook_that_another_writes_in_closes_the_port_again(book: Logbook, plan: Plan, source: ToldSource) -> None:
    book.open_sitting(plan, STARTED)
    with pytest.raises(LogbookError, match="another heatbook is writing"):
        sit(RunRequest(lambda _: source, plan=lambda: plan), Logbook(book.folder))
    assert source.asked[-1] == "close"


# What is asked for


def test_what_may_end_a_phase_is_as_asked_or_as_set(book: Logbook, plan: Plan, another: Another) -> None:
    def hands(asked: HandsFree | None) -> HandsFree:
        running = sit(RunRequest(another, plan=lambda: plan, hands_free=asked), book)
        running.put_away()
        return running.sitting.hands.free

    assert (hands(None), hands(HandsFree.NEVER)) == (HandsFree.ALL, HandsFree.NEVER)


def test_a_rehearsal_goes_by_no_shop_file(book: Logbook, plan: Plan, another: Another) -> None:
    shop = "cooling_factor = 1.3\n"
    real = sit(RunRequest(another, plan=lambda: plan), book, shop=shop)
    assert real.sitting.shop == Shop(1.3)
    real.say(Word.NOTE, "begun")
    real.put_away()
    rehearsed = sit(rehearsal_of(lambda: plan, 7, None), book, shop=shop)
    assert rehearsed.sitting.shop == Shop()
    assert (rehearsed.logged.journal.header.rehearsal, rehearsed.logged.journal.header.seed) == (True, 7)
    rehearsed.say(Word.NOTE, "begun")
    rehearsed.put_away()


def test_a_rehearsal_begins_at_the_first_fire_and_its_log_says_so(book: Logbook, plan: Plan) -> None:
    assert [step.kind for step in plan.steps[:2]] == [StepKind.BENCH, StepKind.WELD]
    rehearsed = sit(rehearsal_of(lambda: plan, 7, None), book)
    state = rehearsed.sitting.state
    assert (state.step, state.phase, state.acknowledged_at) == (1, PhaseKind.READY, 0.0)
    rehearsed.say(Word.NEXT)
    rehearsed.put_away()
    (note,) = [one for one in book.load("last").log.events if isinstance(one, Said) and one.word is Word.NOTE]
    assert "begins at step 2 of 5" in note.text


def test_a_plan_that_begins_at_the_fire_loses_nothing_to_a_rehearsal(book: Logbook, plan: Plan) -> None:
    rehearsed = sit(rehearsal_of(lambda: replace(plan, steps=plan.steps[1:]), 7, None), book)
    assert rehearsed.sitting.state.step == 0
    assert [one.word for one in rehearsed.logged.journal.log.events if isinstance(one, Said)] == [Word.ACKNOWLEDGE]
    rehearsed.say(Word.NOTE, "begun")
    rehearsed.put_away()


def test_a_rehearsal_leaves_out_bench_work_and_nothing_else(book: Logbook, plan: Plan) -> None:
    """Not what is held in an oven before the first fire; and of a plan of bench work alone, nothing."""
    bench, weld = plan.steps[:2]
    oven = replace(bench, kind=StepKind.TEMPER, phases=(Phase(PhaseKind.OVEN, seconds=60.0, at=473.15),))
    for steps, begins_at in (((bench, oven, weld), 1), ((bench, bench), 0)):
        rehearsed = sit(rehearsal_of(partial(replace, plan, steps=steps), 7, None), book)
        assert rehearsed.sitting.state.step == begins_at
        rehearsed.put_away()


def test_a_rehearsal_is_not_gone_on_with_without_its_forge(book: Logbook, plan: Plan, another: Another) -> None:
    rehearsed = sit(rehearsal_of(lambda: plan, 7, None), book)
    rehearsed.say(Word.NOTE, "begun")
    rehearsed.put_away()
    with pytest.raises(LogbookError, match="its simulated forge went with it; begin it anew: heatbook demo --plan"):
        sit(RunRequest(another, go_on="last"), book)
    assert [one.state for one in book.summaries()] == [Progress.UNFINISHED]


def test_a_recording_with_only_words_is_of_a_sitting_without_a_probe(book: Logbook, plan: Plan, tmp_path: Path) -> None:
    path = tmp_path / "said.csv"
    for rows, probe_on in (("0,,next\n5,,next\n", None), ("0,,next\n5,20.5,\n", ProbeOn.FIRE)):
        path.write_text("seconds,celsius,word\n" + rows)
        running = sit(recording_of(lambda: plan, RecordingSource(path), ProbeOn.FIRE), book)
        assert running.sitting.probe_on is probe_on
        assert running.logged.journal.header.port == str(path)
        running.put_away()


def test_where_no_smith_stands_by_the_pedal_is_left_alone(
    book: Logbook, plan: Plan, source: ToldSource, tmp_path: Path
) -> None:
    sit(RunRequest(lambda _: source, plan=lambda: plan, attended=False), book).put_away()
    assert "watch line" not in source.asked
    path = tmp_path / "said.csv"
    path.write_text("seconds,celsius,word\n0,,next\n")
    told: list[Delivered] = []
    pedal = Settings(pedal=PedalSetting(line="cts", port=str(tmp_path / "none")))
    shop = tmp_path / "shop.toml"
    for request in (
        recording_of(lambda: plan, RecordingSource(path), ProbeOn.WORK),
        rehearsal_of(lambda: plan, 1, None, attended=False),
    ):
        begin_sitting(request, book, pedal, shop, told.append, lambda: STARTED).put_away()
    assert [entry for entry in told if isinstance(entry, DeviceError)] == []
    begin_sitting(rehearsal_of(lambda: plan, 1, None), book, pedal, shop, told.append, lambda: STARTED).put_away()
    assert str(tmp_path / "none") in str(next(entry for entry in told if isinstance(entry, DeviceError)))


# By every way


@pytest.fixture
def recording(tmp_path: Path) -> str:
    path = tmp_path / "readings.csv"
    path.write_text("seconds,celsius,word\n0,20,next\n5,30,\n")
    return str(path)


@pytest.fixture
def shut(monkeypatch: pytest.MonkeyPatch) -> None:
    """Nothing begins any more."""

    def begin_sitting(*_: object) -> RunningSitting:
        raise DeviceError("the one way in", "is shut", "Open it.")

    # On the package's front, where every way takes it from, and which keeps what it was once asked for.
    monkeypatch.setattr("tui.running.begin_sitting", begin_sitting)


@pytest.mark.usefixtures("shut")
def test_every_way_without_a_screen_is_the_one_way(ask: Ask, recording: str) -> None:
    for words in (
        ("run", "normalize", "--no-screen"),
        ("run", "--go-on", "last", "--no-screen"),
        ("run", "normalize", "--readings", recording),
        ("demo", "--unattended"),
    ):
        answer = ask(*words)
        assert answer.returncode == 1
        assert "the one way in: is shut" in answer.stderr
    assert json.loads(ask("log", "list", "--json").stdout) == []


@pytest.mark.usefixtures("shut")
async def test_every_way_on_the_screen_is_the_one_way(stage: StageMaker) -> None:
    async with stage() as on:
        assert "the one way in: is shut" in on.app.outcome.errors[0]
    for keys in (("enter",), ("t", "space")):
        async with stage(first=Shelf()) as on:
            told = on.app.screen.query_one(Told)
            await on.press(*keys)
            await on.settled(partial(lambda told: "the one way in: is shut" in told.text, told))
            assert on.app.running is None
            assert on.app.logbook.summaries() == on.app.rehearsals.summaries() == []


def test_without_a_screen_a_port_that_cannot_be_opened_leaves_no_sitting(
    ask: Ask, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(Rehearsal, "port", "/dev/nosuch")
    for words in (
        ("run", "normalize", "--no-screen", "--port", "/dev/nosuch"),
        ("run", "normalize", "--readings", "/dev/nosuch.csv"),
        ("demo", "--unattended"),
    ):
        answer = ask(*words)
        assert answer.returncode == 1
        assert "/dev/nosuch" in answer.stderr
    assert json.loads(ask("log", "list", "--json").stdout) == []


async def test_on_the_screen_a_port_that_cannot_be_opened_leaves_no_sitting(
    stage: StageMaker, plan: Plan, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setattr(Rehearsal, "port", "/dev/nosuch")
    for request in (sitting_of(lambda: plan, ProbeSetting("/dev/nosuch")), rehearsal_of(lambda: plan, 1, 10.0)):
        async with stage(first=request) as on:
            if request.seed is not None:
                await on.press("space")
                await on.settled(lambda: bool(on.app.outcome.errors))
            assert "/dev/nosuch" in on.app.outcome.errors[0]
    for folder in ("logbook", "rehearsals"):
        assert Logbook(tmp_path / folder).summaries() == []


@pytest.fixture
def asked(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """What is asked of a clock, in order."""
    asked: list[str] = []
    set_time, start = ClockSource.set_time, ClockSource.start

    def noting_time(source: ClockSource, at: float) -> None:
        asked.append("set time")
        set_time(source, at)

    def noting_start(source: ClockSource, deliver: Callable[[Delivered], None]) -> None:
        asked.append("start")
        start(source, deliver)

    monkeypatch.setattr(ClockSource, "set_time", noting_time)
    monkeypatch.setattr(ClockSource, "start", noting_start)
    return asked


def test_without_a_screen_the_clock_comes_first_when_going_on(ask: Ask, asked: list[str]) -> None:
    assert ask("run", "normalize", "--no-screen", input="note begun\n").returncode == 0
    assert asked == ["start", "set time"]
    asked.clear()
    assert ask("run", "--go-on", "last", "--no-screen").returncode == 0
    assert asked == ["set time", "start"]


async def test_on_the_screen_the_clock_comes_first_when_going_on(stage: StageMaker, asked: list[str]) -> None:
    async with stage() as on:
        assert asked == ["start", "set time"]
        await on.say(Word.NEXT)
        await on.press("q", "l")
    asked.clear()
    async with stage(first=LogList()) as on:
        await on.press("g")
        await on.opened()
        assert asked == ["set time", "start"]
        await on.press("ctrl+c")


def test_a_sitting_knows_the_lag_of_its_probe_from_the_profile_that_it_has_now(
    book: Logbook, plan: Plan, tmp_path: Path
) -> None:
    def in_a_sheath(seconds: float) -> Callable[[Plan], ProbeSource]:
        path = tmp_path / "sheath.toml"
        path.write_text(f'title = "In a sheath"\nunit = "degC"\nlag = "{seconds:g} s"\n')
        profile = read_profile(path)
        return lambda _: Unopened(lambda: 0.0, "", profile)

    first = sit(RunRequest(in_a_sheath(8.0), plan=lambda: plan, probe_on=ProbeOn.WORK), book)
    assert first.logged.sitting.lag == 8.0
    first.say(Word.NOTE, "begun")
    first.put_away()
    again = sit(RunRequest(in_a_sheath(3.0), go_on=first.id, probe_on=ProbeOn.WORK), book, later=5)
    assert again.logged.sitting.lag == 3.0


class Unopened(ProbeSource):
    """A probe of which only the profile counts."""

    def start(self, deliver: Callable[[Delivered], None]) -> None:
        pass
