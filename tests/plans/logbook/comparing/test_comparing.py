"""Sittings beside one another: figures, traces, trends, habits; all arithmetic by hand."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import datetime, timedelta
from typing import TYPE_CHECKING

import pytest

from plans.logbook import HeatFigures, Outcome, Timeline, work_out
from plans.logbook.afterwards.outcome import Flaw, WeldOutcome
from plans.logbook.comparing import (
    Moment,
    Occasion,
    Row,
    fisher_exact,
    habit_table,
    habits_told,
    habits_verdict,
    lay_over,
    occasions,
    of_kind,
    part_title,
    points_of,
    side_by_side,
    spans_of,
    trend_table,
)
from plans.logbook.figures.of_a_sitting import HeatEnd, StepFigures
from plans.logbook.lines import What
from plans.plan import StepKind
from plans.reader import read_plan
from plans.reading import ProbeOn, Reading
from plans.sitting import Basis, Word
from plans.units import Units

if TYPE_CHECKING:
    from plans.logbook import Logbook
    from plans.plan import Plan
    from tests.plans.logbook.conftest import Telling

STARTED = datetime.fromisoformat("2026-03-01T09:00:00+01:00")
HEAT = HeatFigures(1, 200.0, 60.0, 30.0, 0.0, 0.0, 0.0, 1550.0, 1540.0, 1450.0, Basis.MODELLED)


def weld(day: int, *heats: HeatFigures, flawed: bool | None) -> Occasion:
    """A sitting with one weld; None for one of which nothing was said."""
    said = None if flawed is None else Outcome((WeldOutcome(2, (Flaw.COLD_SHUT,) if flawed else ()),))
    steps = (StepFigures(2, "Weld", StepKind.WELD, heats),)
    return Occasion(f"day-{day}", "knife", STARTED + timedelta(days=day), steps, said)


def test_fisher_by_hand() -> None:
    # The lady tasting tea, 3 of 4 cups right: tables of comb(8, 4) = 70: 1, 16, 36, 16, 1; 1 + 16 + 16 + 1 of them are
    # no likelier (R. A. Fisher, The Design of Experiments, 1935, chapter II).
    assert fisher_exact(3, 1, 1, 3) == 34 / 70
    assert fisher_exact(5, 0, 0, 5) == 2 / 252
    assert fisher_exact(0, 0, 3, 4) == 1


def test_a_habit_is_told_from_ten_sittings_on_and_not_before() -> None:
    cold = replace(HEAT, too_cold=4.0)
    told = habits_told(
        [
            *(weld(day, HEAT, cold, flawed=True) for day in range(5)),
            *(weld(day, HEAT, flawed=False) for day in range(4)),
        ]
    )
    assert (told.sittings, told.flawed, told.habits) == (9, 5, ())
    enough = [*(weld(day, HEAT, cold, flawed=True) for day in range(5)), weld(9, cold, flawed=None)]
    enough += [weld(day, HEAT, flawed=False) for day in range(5)]
    told = habits_told(enough)
    assert (told.sittings, told.flawed) == (10, 5)
    # All soaked alike and were as hot: nobody was above or below usual, so only the one habit parts them.
    (one,) = told.habits
    assert (one.flawed_with, one.sound_with, one.flawed_without, one.sound_without) == (5, 0, 0, 5)
    assert one.habit.name == "struck too cold"
    assert one.is_told  # 2 / 252 = 0.0079 < 0.05 / 6 = 0.0083
    # One exception: (1 + 25 + 25 + 1 of the 252 tables) = 0.206, which tells nothing.
    told = habits_told([*enough[:4], weld(4, HEAT, flawed=True), *enough[5:-1], weld(10, cold, flawed=False)])
    (one,) = told.habits
    assert (one.chance, one.is_told) == (52 / 252, False)
    assert habits_told(weld(day, cold if day % 2 else HEAT, flawed=False) for day in range(20)).habits == ()


def test_a_habit_counts_only_below_what_so_many_tried_at_once_let_expect() -> None:
    cold = replace(HEAT, too_cold=4.0)
    found = [weld(day, cold, flawed=True) for day in range(5)]
    found += [weld(5, cold, flawed=False), *(weld(day, HEAT, flawed=False) for day in range(6, 10))]
    told = habits_told(found)
    (one,) = told.habits
    # 5 and 1 with it, 0 and 4 without: comb(6, 5) + comb(6, 1) of comb(10, 5) tables are no likelier.
    assert (one.chance, one.is_told) == (12 / 252, False)
    assert habit_table(told, Units.METRIC).rows == (("struck too cold", "5 of 6", "0 of 4", "0.048"),)
    assert "None does" in habits_verdict(told)
    parted = [weld(day, cold if day < 6 else HEAT, flawed=day < 6) for day in range(12)]
    assert "Struck too cold went with more flawed welds" in habits_verdict(habits_told(parted))
    spared = [weld(day, cold if day < 6 else HEAT, flawed=day >= 6) for day in range(12)]
    assert "Struck too cold went with fewer flawed welds" in habits_verdict(habits_told(spared))


def test_of_several_heats_the_coolest_and_the_hottest_make_a_habit() -> None:
    # Flawed where one of two heats came out at 1500 K; the hottest of each was alike.
    cool = replace(HEAT, leaving=1500.0)
    found = [weld(day, HEAT, *([cool] if day % 2 else [HEAT]), flawed=bool(day % 2)) for day in range(10)]
    (one,) = habits_told(found).habits
    assert (one.habit.name, one.flawed_with, one.sound_without) == ("out of the fire cooler than usual", 5, 5)
    hot = replace(HEAT, peak=1600.0)
    found = [weld(day, HEAT, *([hot] if day % 2 else [HEAT]), flawed=bool(day % 2)) for day in range(10)]
    (one,) = habits_told(found).habits
    assert (one.habit.name, one.flawed_with, one.sound_without) == ("hotter than usual", 5, 5)


def test_usual_is_the_median_and_what_nobody_knew_is_left_out() -> None:
    soaks = [30.0, 40.0, 50.0, 60.0, 70.0, 80.0, 90.0, 100.0, 110.0, 120.0]
    # The peak is known of nine alone, which is too few; a heat cut off has no soak to speak of, and is a habit itself.
    cut = replace(HEAT, soak=0.0, end=HeatEnd.CUT_OFF)
    told = habits_told(
        weld(
            day,
            replace(HEAT, soak=soak, peak=None if day == 3 else 1500.0 + day, in_fire=200.0 if day < 8 else 300.0),
            *([cut] if day == 9 else []),
            flawed=day < 4,
        )
        for day, soak in enumerate(soaks)
    )
    counts = {
        one.habit.name: (one.usual, one.flawed_with, one.sound_with, one.flawed_without, one.sound_without)
        for one in told.habits
    }
    assert counts == {
        "back into the fire unstruck": (None, 0, 1, 4, 5),
        "a shorter soak than usual": (75.0, 4, 1, 0, 5),
        "longer in the fire than usual": (200.0, 0, 2, 4, 4),
    }


def test_trends_put_sittings_together_as_evenly_as_they_go() -> None:
    cut = [replace(HEAT, end=HeatEnd.CUT_OFF)]  # counts as no heat
    points = points_of(
        weld(day, *[replace(HEAT, too_cold=float(day))] * (day + 1), *cut[:day], flawed=None if day == 2 else day == 3)
        for day in range(5)
    )
    assert [(point.heats, point.too_cold, point.sound, point.welds) for point in points] == [
        (1, 0, 1, 1),
        (2, 2, 1, 1),
        (3, 6, 0, 0),
        (4, 12, 0, 1),
        (5, 20, 1, 1),
    ]
    early, late = spans_of(points, 2)
    assert (early.sittings, early.heats, early.too_cold, early.sound, early.welds) == (2, 1.5, 1.0, 2, 2)
    assert (late.sittings, late.heats, late.too_cold, late.sound, late.welds) == (3, 4, 12, 1, 2)
    assert spans_of([]) == []


def test_sittings_of_one_day_are_told_apart_by_the_clock() -> None:
    days = [replace(weld(day, HEAT, flawed=None), started=STARTED + timedelta(days=day)) for day in (0, 1, 2)]
    later = replace(days[1], sitting="later", started=days[1].started + timedelta(hours=5, minutes=7))
    table = trend_table(points_of([*days[:2], later, days[2]]), Units.METRIC)
    assert [row[0] for row in table.rows] == ["2026-03-01", "2026-03-02 09:00", "2026-03-02 14:07", "2026-03-03"]
    # Sixteen are eight pairs, of which the first three share a day, and the last goes over the end of a year.
    starts = [STARTED + timedelta(hours=hour) for hour in range(5)]
    starts += [STARTED + timedelta(days=day) for day in (*range(1, 11), 310)]
    many = points_of(replace(days[0], started=moment) for moment in starts)
    table = trend_table(many, Units.METRIC)
    assert [row[:3] for row in (*table.rows[:4], table.rows[-1])] == [
        ("2026-03-01 09:00", "03-01", "2"),
        ("2026-03-01 11:00", "03-01", "2"),
        ("2026-03-01 13:00", "03-02", "2"),
        ("2026-03-03", "03-04", "2"),
        ("2026-03-11", "2027-01-05", "2"),
    ]
    assert len({row[0] for row in table.rows}) == len(table.rows)


def test_trends_show_fuel_where_it_is_known_of_whole_sittings() -> None:
    seen = [weld(day, HEAT, flawed=None) for day in range(4)]
    assert "fuel" not in trend_table(points_of(seen), Units.METRIC).heading
    burnt = [seen[0], *(replace(one, fuel_mass=day + 1.0) for day, one in enumerate(seen[1:]))]
    table = trend_table(points_of(burnt), Units.METRIC)
    assert [row[table.heading.index("fuel")] for row in table.rows] == ["", "1.00 kg", "2.00 kg", "3.00 kg"]
    # Of two and of two: 1 alone is known, and the middle of 2 and 3.
    assert [span.fuel_mass for span in spans_of(points_of(burnt), 2)] == [1.0, 2.5]
    gas = [*burnt[:3], replace(seen[3], fuel_volume=4.0)]
    assert [(span.fuel_mass, span.fuel_volume) for span in spans_of(points_of(gas), 2)] == [(1.0, None), (None, 4.0)]
    assert [one.fuel_mass for one in of_kind(burnt, StepKind.WELD)] == [None] * 4, "a fire is not for one kind of step"
    assert [one.fuel_mass for one in of_kind(burnt, None)][1:] == [1, 2, 3]


@pytest.fixture
def told(tell: Callable[..., Telling]) -> Callable[[float, float], Telling]:
    """A weld heat: 100 s in the fire, then so long on the anvil at so many degC; the next heat is cut off."""

    def told(celsius: float, seconds: float) -> Telling:
        story = tell(ProbeOn.WORK).say(Word.ACKNOWLEDGE, Word.NEXT).feel(1250, 100, 1.0)
        return story.say(Word.NEXT).feel(celsius, seconds, 1.0).say(Word.NEXT).feel(1250, 20, 1.0).say(Word.FINISH)

    return told


def test_figures_side_by_side_mark_what_can_be_told_apart(told: Callable[[float, float], Telling]) -> None:
    whole, step = side_by_side([told(1200, 20).kept(), told(1150, 40).kept(), told(1190, 24).kept()])
    assert (whole.title, step.title, step.kind) == ("", "Weld", StepKind.WELD)
    took, *_ = whole.rows
    # 20 s are more than a tenth of 160 s; 4 s are less than 5.
    assert (took.values, took.differs) == ((140, 160, 144), (False, True, False))
    rows = {row.name: row for row in step.rows}
    assert (rows["in fire"].values, any(rows["in fire"].differs)) == ((120, 120, 120), False)
    assert (rows["struck"].values, rows["struck"].differs) == ((20, 40, 24), (False, True, False))
    # 50 K are more than 20, 10 are not.
    assert rows["lowest struck"].differs == (False, True, False)
    assert {"air", "held", "too cold"}.isdisjoint(rows)


def test_of_a_step_with_several_heats_the_hottest_and_the_coolest_stand_there(tell: Callable[..., Telling]) -> None:
    kept = tell().say(Word.NEXT).wait(1).say(Word.FINISH).kept()
    assert kept.figures is not None
    heats = (
        replace(HEAT, too_cold=2.0),
        replace(HEAT, heat=2, too_cold=3.0, peak=1560.0, leaving=1500.0),
        replace(HEAT, heat=3, lowest_struck=1400.0, end=HeatEnd.CUT_OFF),
    )
    step = StepFigures(0, "Weld", StepKind.WELD, heats)
    kept = replace(kept, figures=replace(kept.figures, steps=(step, replace(step, step=1, heats=heats[:1]))))
    whole, first, second = side_by_side([kept, kept])
    values = {row.name: row.values[0] for row in first.rows}
    assert (values["heats"], values["not done"], values["in fire"], values["too cold"]) == (2, 1, 600.0, 5.0)
    assert (values["peak"], values["leaving, coolest"], values["lowest struck"]) == (1560.0, 1500.0, 1400.0)
    assert (whole.rows[1].values, second.title, second.steps) == ((3, 3), "Weld", (1, 1)), "the second of one name"


AT_THE_BENCH = 'kind = "bench"'
HARDENED = """kind = "harden"
fire = "820 degC"
heat_to = "800 degC"
section = "25 x 10 mm"
[step.quench]
medium = "oil"
for = "10 s"
"""


def plan_of(*titles: str) -> Plan:
    """A plan of steps at the bench; what is called "Harden" is hardened."""
    kinds = {"Harden": HARDENED}
    steps = "".join(f'[[step]]\ntitle = "{title}"\n{kinds.get(title, AT_THE_BENCH)}\n' for title in titles)
    return read_plan(f'heatbook = 1\ntitle = "Some"\n{steps}', "some", "some.toml")


def paired(tell: Callable[..., Telling], *plans: Plan) -> list[tuple[int | None, ...]]:
    """Which steps stand beside one another, where every one was come to."""
    sittings = []
    for plan in plans:
        kept = tell(of=plan).say(Word.FINISH).kept()
        assert kept.figures is not None
        steps = tuple(StepFigures(at, one.title, one.kind, (HEAT,)) for at, one in enumerate(plan.steps))
        sittings.append(replace(kept, figures=replace(kept.figures, steps=steps)))
    return [part.steps for part in side_by_side(sittings)[1:]]


def test_steps_are_paired_by_title_then_by_kind_and_never_cross(tell: Callable[..., Telling]) -> None:
    file, clean, harden = "File", "Clean", "Harden"
    repeated = plan_of(file, harden, file, clean)
    # The title that stands there twice is the one before hardening and the one after, whatever one of them lacks.
    assert paired(tell, repeated, plan_of(harden, file, clean)) == [(0, None), (1, 0), (2, 1), (3, 2)]
    assert paired(tell, plan_of(harden, file, clean), repeated) == [(None, 0), (0, 1), (1, 2), (2, 3)]
    # One that was retitled stands between the same two.
    assert paired(tell, repeated, plan_of(file, harden, "Dress", clean)) == [(0, 0), (1, 1), (2, 2), (3, 3)]
    # Those that changed places can't both be paired: what would cross stands alone.
    found = paired(tell, plan_of(file, clean, harden), plan_of(harden, file, clean))
    assert found == [(None, 0), (0, 1), (1, 2), (2, None)]
    # Of three, the third finds what the second alone has.
    found = paired(tell, plan_of(file), plan_of(file, harden), plan_of(harden, clean))
    assert found == [(0, 0, None), (None, 1, 0), (None, None, 1)]


def test_a_step_that_was_retitled_is_said_with_both_titles(told: Callable[[float, float], Telling]) -> None:
    first = told(1200, 20).kept()
    assert first.figures is not None
    (step,) = first.figures.steps
    source = first.header.source.replace('"Weld"', '"Set it"')
    renamed = replace(
        first,
        header=replace(first.header, source=source),
        figures=replace(first.figures, steps=(replace(step, title="Set it"),)),
    )
    _, part = side_by_side([first, first, renamed, renamed])
    assert part.steps == (0, 0, 0, 0)
    assert part_title(part, Units.METRIC) == "Weld (weld), in C and D: Set it"
    (same,) = side_by_side([first, first])[1:]
    assert part_title(same, Units.METRIC) == "Weld (weld)"


def test_a_tenth_of_a_long_time_is_not_told_apart() -> None:
    row = Row("in fire", What.TIME, (100.0, 109.0, 112.0))  # 9 s of 109 are less than a tenth, 12 s of 112 are more
    assert row.differs == (False, False, True)


def test_a_step_that_one_has_not_come_to_differs(told: Callable[[float, float], Telling]) -> None:
    more = told(1200, 20).kept()
    assert more.figures is not None
    draw = StepFigures(1, "Draw", StepKind.DRAW, (HEAT,))
    less, more = more, replace(more, figures=replace(more.figures, steps=(*more.figures.steps, draw)))
    for pair in ((less, more), (more, less)):
        step = side_by_side(pair)[2]
        assert (step.title, [row.name for row in step.rows if row.differs[1]]) == ("Draw", ["heats"])


def test_traces_are_laid_over_one_another_from_a_moment(told: Callable[[float, float], Telling]) -> None:
    timelines = [Timeline.of(told(1200, 20).kept()), Timeline.of(told(1150, 40).kept())]
    first, second = lay_over(timelines, Moment.OUT)
    assert first is not None
    assert second is not None
    assert (first.heat, first.seconds, second.seconds) == (1, 20, 40)

    def celsius(at: float) -> list[float | None]:
        found = [laid.at(at) for laid in (first, second)]
        return [None if one is None else round(one[0] - 273.15, 6) for one in found]

    assert celsius(10) == [1200, 1150]
    assert celsius(30) == [None, 1150]
    in_fire = lay_over(timelines, Moment.FIRE)
    assert [None if laid is None else laid.seconds for laid in in_fire] == [120, 140]
    cut_off = lay_over(timelines, Moment.FIRE, 0, 2)
    assert [None if laid is None else laid.seconds for laid in cut_off] == [20, 20]
    assert lay_over(timelines, Moment.QUENCH) == [None, None]


def test_the_modelled_skin_is_laid_over_where_no_probe_is_on_the_work(tell: Callable[..., Telling]) -> None:
    story = tell().say(Word.ACKNOWLEDGE, Word.NEXT).wait(300).say(Word.NEXT)
    for _ in range(20):
        story.wait(1)
    kept = story.say(Word.FINISH).kept()
    (laid,) = lay_over([Timeline.of(kept)], Moment.OUT)
    assert laid is not None
    found = [one for at in (10.0, 10.5, 11.0) if (one := laid.at(at)) is not None]
    assert [basis for _, basis in found] == [Basis.MODELLED] * 3
    early, between, late = (kelvin for kelvin, _ in found)
    assert between == pytest.approx((early + late) / 2)
    assert early > late


def test_trends_read_outcome_and_steps_and_neither_log_nor_traces(
    book: Logbook, trial: Plan, told: Callable[[float, float], Telling]
) -> None:
    names = [put_away(book, trial, told(1200, seconds), day) for day, seconds in enumerate((20, 30))]
    book.amend(names[1], lambda kept: replace(kept, outcome=Outcome((WeldOutcome(0),))))
    kept = [book.load(name) for name in names]

    for name in names:  # no JSON any more, in its middle
        path = book.folder / "sittings" / f"{name}.json"
        path.write_bytes(path.read_bytes().replace(b'"measured":[', b'"measured":[]]', 1))
    found = list(occasions(book, "trial", StepKind.WELD))
    assert [(one.sitting, one.outcome) for one in found] == [(names[0], None), (names[1], kept[1].outcome)]
    assert [one.steps for one in found] == [one.figures.steps for one in kept if one.figures is not None]
    assert list(occasions(book, "another")) == list(occasions(book, kind=StepKind.DRAW)) == []
    assert book.messages == []
    path.write_bytes(path.read_bytes().replace(b'"flaws":[]', b'"flaws":["dull"]'))
    assert [one.outcome for one in occasions(book)] == [None, None]
    assert any("dull" in message for message in book.messages)
    path.write_bytes(path.read_bytes().replace(b'"kind":"weld"', b'"kind":"knit"'))
    assert [one.sitting for one in occasions(book)] == names[:1]
    assert any(path.name in message for message in book.messages)


def put_away(book: Logbook, plan: Plan, story: Telling, day: int) -> str:
    journal = book.open_sitting(plan, STARTED + timedelta(days=day), probe_on=ProbeOn.WORK)
    for entry in story.entries:
        if isinstance(entry, Reading):
            journal.reading(entry)
        else:
            journal.event(entry)
    return book.fold(journal, work_out).id
