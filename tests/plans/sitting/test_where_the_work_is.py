"""Where the work is: what each word means in each phase, pauses, trips for flux, and words that can hardly be meant."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from plans.phase import PhaseKind
from plans.plan import Bar, Plan
from plans.reading import ProbeOn
from plans.shapes import Section
from plans.sitting.calls import Call
from plans.sitting.engine import Sitting
from plans.sitting.events import Asked, Doubt, WentOn, Word
from plans.sitting.hands import Hands, HandsFree
from plans.sitting.quench import hardening_ceiling
from plans.sitting.words import WordError
from tests.plans.sitting.conftest import ICE, Story

Alone = Callable[..., Plan]
READY, FIRE, SOAK, STRIKE, AIR = PhaseKind.READY, PhaseKind.FIRE, PhaseKind.SOAK, PhaseKind.STRIKE, PhaseKind.AIR
QUENCH, OVEN, DIP, BENCH = PhaseKind.QUENCH, PhaseKind.OVEN, PhaseKind.DIP, PhaseKind.BENCH
NEXT, IN, OUT, FLUX = Word.NEXT, Word.IN, Word.OUT, Word.FLUX
ASKS = Hands(HandsFree.THERMAL, asks=True)
WORK = ProbeOn.WORK


def live(plan: Plan, probe_on: ProbeOn | None = None, hands: Hands = ASKS) -> Story:
    """A sitting that somebody works by: doubtful words are asked about."""
    return Story(Sitting(plan, probe_on, hands))


def doubt(story: Story) -> Doubt | None:
    asked = story.sitting.state.asks(story.at)
    return None if asked is None else asked.doubt


def skin(story: Story) -> float:
    """The work's skin [degC]."""
    seen = story.sitting.skin
    assert seen is not None
    return seen[0] - ICE


WAYS: dict[PhaseKind, tuple[tuple[int, ...], tuple[Word, ...]]] = {
    READY: ((0, 1), ()),
    FIRE: ((0, 1), (NEXT,)),
    SOAK: ((0, 1), (NEXT, NEXT)),
    STRIKE: ((0, 1), (NEXT, NEXT, NEXT)),
    AIR: ((2, 6), (NEXT, NEXT, NEXT)),
    QUENCH: ((3, 4), (NEXT, NEXT, NEXT)),
    OVEN: ((4, 6), (NEXT,)),
    DIP: ((5, 6), (NEXT,)),
    BENCH: ((5, 6), (NEXT, NEXT)),
}
"""Steps of the small plan, and the words that lead into each phase of the first of them."""

MEANS = """
         next    in      out     flux    repeat  on      back    pause
READY    fire    fire    -       -       =       fire    -       paused
FIRE     soak    -       strike  look    =       fire'   fire    paused
SOAK     strike  -       strike  look    =       fire'   fire    paused
STRIKE   fire    fire    -       -       =       fire'   soak    paused
AIR      fire    fire    -       -       =       bench'  soak    paused
QUENCH   ready'  -       -       -       =       ready'  soak    paused
OVEN     air     -       air     look    =       bench'  oven    paused
DIP      bench   -       -       -       =       bench'  dip     paused
BENCH    dip     -       -       -       =       bench'  dip     paused
"""
"""Where each word leads from each phase of a step's first heat: to a phase, one of the next step with a dash; "=" to
none, "-" where the word means nothing and is refused."""


def outcome(story: Story, word: Word) -> str:
    before = story.place
    try:
        story.say(word)
    except WordError:
        return "-"
    state = story.sitting.state
    if state.out_for_a_look:
        return "look"
    if state.paused:
        return "paused"
    if word is Word.REPEAT:
        return "=" if story.place == before else "moved"
    return state.phase.value + ("'" if state.step != before[0] else "")


@pytest.mark.parametrize("row", MEANS.strip().splitlines()[1:], ids=lambda row: row.split()[0])
def test_each_word_means_one_thing_in_each_phase(steps_alone: Alone, row: str) -> None:
    name, *expected = row.split()
    words = [Word(word) for word in MEANS.split()[: len(expected)]]
    steps, way = WAYS[PhaseKind(name.lower())]
    found = []
    for word in words:
        story = live(steps_alone(*steps), hands=Hands())
        for said in way:
            story.wait(10).say(said)
        assert story.phase.value == name.lower()
        found.append(outcome(story.wait(10), word))
    if name in ("READY", "FIRE", "OVEN", "DIP"):
        # Nothing came before the first phase of the first heat but the waiting for it.
        expected[6] = found[6]
        assert found[6] in ("-", "ready")
    if name == "READY":
        expected[5] = found[5]
    assert found == expected


# Flux


def test_flux_is_called_on_the_way_up_and_the_trip_leaves_the_heat_as_it_is(steps_alone: Alone) -> None:
    plan = steps_alone(0, 1)
    fluxed = replace(plan, steps=(replace(plan.steps[0], flux_at=870 + ICE), plan.steps[1]))
    story = live(fluxed).say(NEXT)
    story.wait_for(Call.FLUX_NOW)
    assert skin(story) == pytest.approx(870, abs=10)
    story.say(NEXT)
    assert (story.sitting.state.out_for_a_look, story.place) == (True, (0, 1, FIRE))
    hot = skin(story)
    story.wait(15)
    assert skin(story) < hot - 20, "the model has it in the air meanwhile"
    story.say(NEXT)
    assert (story.sitting.state.out_for_a_look, story.place) == (False, (0, 1, FIRE))
    story.wait_for(SOAK)
    assert story.calls.count(Call.FLUX_NOW) == 1
    assert Call.TOO_COLD not in story.calls
    assert story.sitting.state.looks[0][1] - story.sitting.state.looks[0][0] == pytest.approx(15)


def test_a_trip_out_of_the_soak_comes_to_heat_again_and_its_seconds_are_no_soak(steps_alone: Alone) -> None:
    story = live(steps_alone(2, 6)).say(NEXT)
    story.wait_for(SOAK)
    story.wait(60).say(FLUX).wait(40)
    assert story.sitting.state.elapsed(story.at) >= 60
    story.say(FLUX)
    assert story.place == (0, 1, FIRE), "it fell below its heat"
    story.wait_for(SOAK)
    assert story.calls.count(Call.LOOKED) == 1


def test_a_probe_feels_the_trip_as_the_key_says_it(steps_alone: Alone) -> None:
    story = live(steps_alone(0, 1), WORK, Hands(HandsFree.ALL, asks=True)).feel(20, seconds=3).say(NEXT)
    for celsius in range(20, 871, 5):
        story.feel(float(celsius))
    for celsius in (860, 845, 830, 815, 800, 790, 780, 770):
        story.feel(float(celsius), seconds=1.0)
    assert (story.sitting.state.out_for_a_look, story.place) == (True, (0, 1, FIRE))
    for celsius in range(770, 1245, 5):
        story.feel(float(celsius))
    assert (story.sitting.state.out_for_a_look, story.place) == (False, (0, 1, FIRE))
    assert Call.TOO_COLD not in story.calls


# Pauses


@pytest.mark.parametrize(("answer", "place"), [(IN, FIRE), (OUT, READY)])
def test_after_a_pause_in_the_fire_it_asks_where_the_work_is(
    steps_alone: Alone, answer: Word, place: PhaseKind
) -> None:
    story = live(steps_alone(0, 1)).say(NEXT).wait(60).say(Word.PAUSE).wait(100).say(NEXT)
    assert (doubt(story), story.sitting.state.paused) == (Doubt.WHERE, True)
    assert story.wait(60).say(answer).place == (0, 1, place)
    assert doubt(story) is None


def test_what_stayed_in_the_fire_warmed_there_and_its_soak_went_on(steps_alone: Alone) -> None:
    plan = steps_alone(0, 1)
    paused, went_on = live(plan).say(NEXT), live(plan).say(NEXT)
    paused.wait(60).say(Word.PAUSE).wait(100).say(IN)
    went_on.wait(160)
    assert skin(paused) == pytest.approx(skin(went_on), abs=0.5)
    assert paused.sitting.state.elapsed(160.0) == went_on.sitting.state.elapsed(160.0)


def test_whoever_has_one_word_says_out_by_saying_it_again(steps_alone: Alone) -> None:
    story = live(steps_alone(0, 1)).say(NEXT)
    story.wait_for(SOAK)
    story.say(Word.PAUSE).wait(100).say(NEXT).wait(2).say(NEXT)
    assert (story.place, story.sitting.state.paused) == ((0, 1, READY), False)


def test_a_probe_on_the_work_answers_by_itself(steps_alone: Alone) -> None:
    for celsius, place in ((1255.0, SOAK), (834.0, FIRE), (59.0, READY)):
        story = live(steps_alone(0, 1), WORK).feel(1255, seconds=3).say(NEXT)
        story.feel(1255, seconds=5)
        assert story.phase is SOAK
        story.say(Word.PAUSE)
        story.at += 100
        story.feel(celsius, seconds=12).say(NEXT)
        assert (doubt(story), story.place) == (None, (0, 1, place))


@pytest.mark.parametrize("phase", [STRIKE, AIR, QUENCH, DIP, BENCH, READY])
def test_a_pause_elsewhere_ends_without_a_question(steps_alone: Alone, phase: PhaseKind) -> None:
    steps, way = WAYS[phase]
    story = live(steps_alone(*steps), hands=Hands())
    for word in way:
        story.wait(10).say(word)
    story.sitting.hands = ASKS
    story.say(Word.PAUSE).wait(50).say(NEXT)
    assert (story.phase, story.sitting.state.paused, doubt(story)) == (phase, False, None)


# Words that can hardly be meant


def test_at_122_degrees_it_is_not_at_heat(steps_alone: Alone) -> None:
    story = live(steps_alone(2, 6), WORK).feel(122, seconds=3).say(NEXT).feel(122, seconds=3).say(NEXT)
    assert (story.place, doubt(story)) == ((0, 1, FIRE), Doubt.NOT_AT_HEAT)
    asked = next(entry for entry in story.log if isinstance(entry, Asked))
    assert asked.kelvin == pytest.approx(122 + ICE)
    assert asked.wanted == pytest.approx(900 + ICE)
    story.feel(122, seconds=2).say(NEXT)
    assert story.place == (0, 1, SOAK), "the smith's word wins, said twice"


def test_three_presses_a_second_apart_strike_nothing_and_heat_nothing(steps_alone: Alone) -> None:
    story = live(steps_alone(0, 1)).wait(5)
    for _ in range(3):
        story.say(NEXT).wait(1)
    assert story.phase is not STRIKE
    assert skin(story) <= 1290, "no fire makes it hotter than itself"


def test_the_model_never_says_hotter_than_a_fire_that_is_measured(steps_alone: Alone) -> None:
    story = live(steps_alone(0, 1), ProbeOn.FIRE, Hands()).feel(1000, seconds=3).say(NEXT)
    story.feel(1000, seconds=20).say(NEXT).feel(1000, seconds=2)
    assert skin(story) <= 1001


def test_a_hold_is_ended_early_only_when_it_is_said_again_and_is_logged_as_short(steps_alone: Alone) -> None:
    story = live(steps_alone(5, 6)).say(NEXT).wait(60).say(NEXT)
    assert (story.place, doubt(story)) == ((0, 1, DIP), Doubt.NOT_OVER)
    story.wait(3).say(NEXT)
    short = story.sitting.state.calls[-1]
    assert (short.call, short.took, short.wanted) == (Call.HOLD_SHORT, 60.0, 600.0), "it ended when it was said first"


def test_a_question_that_nobody_answers_passes(steps_alone: Alone) -> None:
    story = live(steps_alone(5, 6)).say(NEXT).wait(60).say(NEXT).wait(15)
    assert doubt(story) is None
    story.say(NEXT)
    assert (story.place, doubt(story)) == ((0, 1, DIP), Doubt.NOT_OVER)


@pytest.mark.parametrize(
    ("phase", "asked"),
    [
        (FIRE, Doubt.NOT_AT_HEAT),
        (SOAK, Doubt.JUST_BEGAN),
        (STRIKE, Doubt.JUST_BEGAN),
        (AIR, Doubt.NOT_COLD),
        (QUENCH, Doubt.NOT_OVER),
        (OVEN, Doubt.NOT_OVER),
        (DIP, Doubt.NOT_OVER),
        (BENCH, None),
    ],
)
def test_a_press_too_many_in_each_phase(steps_alone: Alone, phase: PhaseKind, asked: Doubt | None) -> None:
    steps, way = WAYS[phase]
    story = live(steps_alone(*steps), hands=Hands())
    for word in way:
        story.wait(10).say(word)
    story.sitting.hands = ASKS
    before = story.wait(2).place
    story.say(NEXT)
    assert doubt(story) is asked
    assert (story.place == before) is (asked is not None)


# When it was, and back and forth


def test_a_word_that_was_said_late_is_moved_back_and_the_model_follows(steps_alone: Alone) -> None:
    plan = steps_alone(0, 1)
    late, in_time = live(plan).say(NEXT), live(plan).say(NEXT)
    for story in (late, in_time):
        story.wait_for(SOAK)
        story.wait(100)
    in_time.say(OUT).wait(20)
    late.wait(20).say(OUT)
    assert skin(late) > skin(in_time) + 30
    late.say(Word.EARLIER).say(Word.EARLIER)
    assert late.sitting.state.since == in_time.sitting.state.since
    assert skin(late) == pytest.approx(skin(in_time), abs=0.5)
    late.say(Word.UNDO)
    assert late.phase is SOAK


def test_no_word_is_moved_before_the_one_before(steps_alone: Alone) -> None:
    story = live(steps_alone(0, 1), hands=Hands()).wait(5).say(NEXT).wait(30).say(NEXT).say(Word.EARLIER, "600")
    assert story.sitting.state.since == 5.0


def test_redo_brings_back_what_undo_took(steps_alone: Alone) -> None:
    plan = steps_alone(0, 1)
    undone, never = live(plan).say(NEXT), live(plan).say(NEXT)
    for story in (undone, never):
        story.wait_for(SOAK)
        story.wait(60).say(OUT).wait(5)
    undone.say(Word.UNDO).wait(3)
    assert undone.phase is SOAK
    undone.say(Word.REDO)
    never.wait(3)
    assert undone.place == never.place == (0, 1, STRIKE)
    assert skin(undone) == pytest.approx(skin(never), abs=0.5)
    with pytest.raises(WordError, match="taken back"):
        undone.say(Word.REDO)


# Against the plan, while it can still be put right


def test_a_normalizing_heat_70_degrees_too_hot_is_called_in_the_fire(steps_alone: Alone) -> None:
    story = live(steps_alone(2, 6), WORK).feel(900, seconds=3).say(NEXT)
    for celsius in range(880, 971, 2):
        story.feel(float(celsius))
    assert story.calls.count(Call.OVER_HEAT) == 1
    story.feel(970, seconds=5)
    called = next(call for call in story.sitting.state.calls if call.call is Call.OVER_HEAT)
    assert called.kelvin is not None
    assert called.kelvin < 960 + ICE, "not only when it leaves"
    assert story.feel(905, seconds=8).sitting.state.alarms.isdisjoint({Call.OVER_HEAT}), "put right"


def test_hardening_is_held_against_the_card_of_its_steel(steps_alone: Alone) -> None:
    """What the card has is held against its sources in tests/outside; here, that it is what calls."""
    plan = replace(steps_alone(3, 6), bars=(Bar("edge", "1095", Section(0.04, 0.006), 0.2),))
    ceiling = hardening_ceiling(plan)
    assert ceiling is not None
    step = replace(plan.steps[0], targets=(replace(plan.steps[0].targets[0], heat_to=780 + ICE, fire=900 + ICE),))
    story = live(replace(plan, steps=(step, *plan.steps[1:])), WORK).feel(780, seconds=3).say(NEXT)
    story.feel(ceiling - ICE - 5, seconds=5)
    assert Call.OVER_HEAT not in story.calls
    story.feel(ceiling - ICE + 8, seconds=5)
    assert Call.OVER_HEAT in story.calls


def test_a_soak_that_is_cut_short_is_said_at_once_with_how_much(steps_alone: Alone) -> None:
    story = live(steps_alone(2, 6), WORK).feel(900, seconds=3).say(NEXT).feel(900, seconds=3)
    assert story.phase is SOAK
    story.feel(900, seconds=20).say(OUT)
    short = next(call for call in story.sitting.state.calls if call.call is Call.SOAK_SHORT)
    assert short.took == pytest.approx(22, abs=2)
    assert (short.wanted, short.step, short.heat) == (180.0, 0, 1)


# Looks, pauses and corrections that overlap


def soaking(plan: Plan, hands: Hands = ASKS) -> Story:
    story = live(plan, hands=hands).say(NEXT)
    story.wait_for(SOAK)
    return story


def test_out_for_good_after_a_look_goes_to_the_quench_and_not_back(steps_alone: Alone) -> None:
    story = soaking(steps_alone(3, 4)).wait(200).say(FLUX).wait(2).say(OUT).wait(2).say(NEXT)
    assert story.phase is QUENCH
    assert not story.sitting.state.out_for_a_look


def test_a_strike_after_a_look_began_when_the_work_came_out(steps_alone: Alone) -> None:
    story = soaking(steps_alone(0, 1)).wait(200)
    out = story.say(FLUX).at
    assert story.wait(4).say(OUT).sitting.state.since == out


def test_a_second_correction_keeps_what_the_first_one_told(steps_alone: Alone) -> None:
    plan, never = steps_alone(1, 6), Hands()
    truth, told = soaking(plan, never), soaking(plan, never)
    began = told.at
    for story, out, back in ((truth, began + 200, began + 298), (told, began + 260, began + 300)):
        story.wait(out - story.at).say(OUT)
        if story is told:
            story.say(Word.EARLIER, "60")
        story.wait(back - story.at).say(IN)
    told.say(Word.EARLIER, "2")
    truth.wait(told.at - truth.at)
    assert skin(told) == pytest.approx(skin(truth), abs=1.0)


def test_no_word_is_moved_back_over_a_look(steps_alone: Alone) -> None:
    story = soaking(steps_alone(0, 1), Hands()).wait(200).say(FLUX).wait(40).say(FLUX).wait(5).say(OUT)
    assert story.say(Word.EARLIER, "60").sitting.state.since == story.at - 5
    with pytest.raises(WordError, match="can't have been earlier"):
        story.say(Word.EARLIER)


def test_no_second_is_counted_out_twice(steps_alone: Alone) -> None:
    story = live(steps_alone(0, 1)).say(NEXT).wait(60).say(FLUX).wait(10).say(Word.PAUSE).wait(100).say(IN).wait(10)
    assert not story.sitting.state.out_for_a_look
    assert 60 <= story.sitting.state.elapsed(story.at) <= story.at - 10


def test_undo_of_back_in_leaves_it_out_for_its_look(steps_alone: Alone) -> None:
    story = live(steps_alone(0, 1)).say(NEXT).wait(60).say(FLUX).wait(30).say(FLUX).wait(2).say(Word.UNDO)
    assert story.sitting.state.out_for_a_look
    assert story.sitting.state.looked_since == 60.0


def test_undo_of_a_word_that_moved_nothing_leaves_a_look_that_is_over(steps_alone: Alone) -> None:
    story = live(steps_alone(0, 1)).say(NEXT).wait(60).say(FLUX).wait(10).say(Word.REPEAT).wait(10).say(FLUX).wait(5)
    story.say(Word.UNDO).say(Word.UNDO)
    assert story.sitting.heats_planned(0) == 2
    assert story.sitting.state.looked_since == 60.0


def test_a_soak_that_went_on_in_a_pause_is_not_begun_anew(steps_alone: Alone) -> None:
    story = soaking(steps_alone(2, 6)).wait(30).say(Word.PAUSE).wait(60).say(IN)
    assert story.phase is SOAK
    assert story.sitting.state.elapsed(story.at) == pytest.approx(90, abs=1)


def test_grace_does_not_strike_work_that_is_out_for_a_look(steps_alone: Alone) -> None:
    story = soaking(steps_alone(2, 6), Hands(HandsFree.ALL, grace=20.0, asks=True))
    story.wait_for(Call.SOAK_DONE)
    story.wait(5).say(FLUX).wait(60)
    assert (story.phase, story.sitting.state.out_for_a_look) == (SOAK, True)


def test_after_a_pause_one_key_and_then_the_other_come_to_an_end(steps_alone: Alone) -> None:
    story = soaking(steps_alone(0, 1)).say(Word.PAUSE).wait(50).say(Word.RESUME).wait(1).say(NEXT)
    assert (story.phase, story.sitting.state.paused) == (READY, False)


def test_into_the_quench_at_178_degrees_is_asked_about(steps_alone: Alone) -> None:
    story = live(steps_alone(3, 4), WORK).feel(178, seconds=3).say(NEXT).feel(178, seconds=3).say(OUT)
    assert (doubt(story), story.sitting.state.left_fire_at) == (Doubt.NOT_AT_HEAT, None)


def test_the_very_first_word_can_be_moved_back_too(steps_alone: Alone) -> None:
    late, in_time = live(steps_alone(0, 1)), live(steps_alone(0, 1))
    in_time.wait(30).say(NEXT).wait(20)
    late.wait(50).say(NEXT).say(Word.EARLIER, "20")
    assert skin(late) == pytest.approx(skin(in_time), abs=0.5)


def test_the_step_before_is_gone_back_to_where_it_was_left(steps_alone: Alone) -> None:
    story = live(steps_alone(0, 1)).say(NEXT).wait(60).say(Word.ON)
    assert (story.place, doubt(story)) == ((0, 1, FIRE), Doubt.IN_THE_FIRE)
    story.wait(1).say(Word.ON).wait(5).say(Word.BACK)
    assert story.place == (0, 1, FIRE), "its second heat never was"


def test_hot_work_is_not_put_into_the_oven_without_a_question(steps_alone: Alone) -> None:
    story = live(steps_alone(4, 6), WORK).feel(474, seconds=3).say(NEXT)
    assert (story.phase, doubt(story)) == (READY, Doubt.NOT_COLD)


def test_a_soak_that_began_by_itself_as_the_key_went_down_is_not_ended_by_it(steps_alone: Alone) -> None:
    story = soaking(steps_alone(0, 1)).wait(1).say(NEXT)
    assert (story.phase, doubt(story)) == (SOAK, Doubt.JUST_BEGAN)


def test_a_step_is_not_left_in_a_pause_before_it_is_known_where_the_work_is(steps_alone: Alone) -> None:
    story = live(steps_alone(0, 1)).say(NEXT).wait(60).say(Word.PAUSE).wait(30).say(Word.ON)
    assert (doubt(story), story.place) == (Doubt.WHERE, (0, 1, FIRE))
    assert story.wait(1).say(Word.ON).place == (1, 1, READY)


def test_a_look_at_black_heat_does_not_silence_the_call_for_flux(steps_alone: Alone) -> None:
    plan = steps_alone(0, 1)
    fluxed = replace(plan, steps=(replace(plan.steps[0], flux_at=870 + ICE), plan.steps[1]))
    story = live(fluxed).say(NEXT).wait(10).say(FLUX).wait(2).say(FLUX)
    story.wait_for(Call.FLUX_NOW)


def test_undo_takes_back_the_question_and_not_the_word_before(steps_alone: Alone) -> None:
    story = live(steps_alone(0, 1)).say(NEXT).wait(5).say(NEXT)
    assert doubt(story) is Doubt.NOT_AT_HEAT
    story.wait(1).say(Word.UNDO)
    assert (story.place, doubt(story)) == ((0, 1, FIRE), None)
    assert story.say(NEXT).phase is FIRE, "it is asked anew"


def test_a_stutter_is_no_answer(steps_alone: Alone) -> None:
    story = live(steps_alone(3, 4)).say(NEXT).wait(5)
    for _ in range(20):
        story.say(NEXT)
    assert story.phase is FIRE


def test_space_on_the_heels_of_back_in_is_no_next(steps_alone: Alone) -> None:
    story = soaking(steps_alone(3, 4)).wait(60).say(FLUX).wait(1).say(FLUX)
    place = story.place
    assert story.wait(0.4).say(NEXT).place == place


def test_a_short_absence_is_no_cooling_where_it_stayed_in_the_fire(steps_alone: Alone) -> None:
    away, stayed = live(steps_alone(0, 1)).say(NEXT), live(steps_alone(0, 1)).say(NEXT)
    for story in (away, stayed):
        story.wait(60)
    away.log += away.sitting.take(WentOn(100.0, None, paused_since=60.0))
    away.at = 110.0
    away.say(IN)
    stayed.wait(50)
    assert skin(away) == pytest.approx(skin(stayed), abs=0.5)


def test_a_hold_that_is_left_is_gone_on_with_by_in(steps_alone: Alone) -> None:
    story = live(steps_alone(4, 6), hands=Hands()).say(NEXT).wait(7300).say(NEXT).wait(700).say(IN)
    assert story.place == (0, 2, OVEN)
