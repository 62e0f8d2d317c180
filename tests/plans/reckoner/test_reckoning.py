"""A reckoning as a record and as lines, and the course of a bar that comes with it."""

from __future__ import annotations

from itertools import pairwise

import pytest

from devices.thermocouple import Kind, thermocouple
from plans.blows import Blows, StruckBy
from plans.reader import SHELF, find_piece, read_plan_file
from plans.reckoned import Reckoned
from plans.reckoner.asked import ASKED
from plans.reckoner.bevels import reckon_bevels
from plans.reckoner.carbon import reckon_decarb, reckon_layers
from plans.reckoner.composite import make_blade, reckon_bars, reckon_composite
from plans.reckoner.cooling import reckon_cooling
from plans.reckoner.draw import reckon_draw
from plans.reckoner.errors import ReckonError, blamed
from plans.reckoner.figures import Fact, Figure, Given, given
from plans.reckoner.forged import reckon_forged
from plans.reckoner.glow import reckon_glow
from plans.reckoner.heats import reckon_heats
from plans.reckoner.kinds import LENGTH, SECONDS, TEMPERATURE
from plans.reckoner.laminate import reckon_laminate
from plans.reckoner.layers import Ground, WeldHeats, reckon_folds
from plans.reckoner.notch import reckon_notch
from plans.reckoner.plan_stock import reckon_plan_stock
from plans.reckoner.profile import reckon_profile
from plans.reckoner.reckoning import Reckoning, columns
from plans.reckoner.scale import reckon_scale
from plans.reckoner.skin import reckon_skin
from plans.reckoner.soak import reckon_soak
from plans.reckoner.squeeze import reckon_squeeze
from plans.reckoner.steel import reckon_steel
from plans.reckoner.stock import SkinHeats, reckon_piece
from plans.reckoner.temper import reckon_temper
from plans.reckoner.twist import reckon_twist
from plans.reckoner.wander import reckon_wander
from plans.reckoner.weight import reckon_weight
from plans.shapes import Section
from plans.steel import all_grades, find_grade
from plans.steel.errors import SteelError
from plans.units import Units, kelvin

SOURCE, OTHER = "a book", "a paper"


def figure(key: str, label: str, value: float, source: str = SOURCE, validity: str = "good") -> Figure:
    return Figure(key, label, Reckoned(value, "modelled", validity, source, value - 10, value + 20), SECONDS)


def reckoned(found: Reckoning, key: str) -> Reckoned:
    known = next(one.reckoned for one in found.found if isinstance(one, Figure) and one.key == key)
    assert known is not None
    return known


EXAMPLE = Reckoning(
    "example",
    (Given("what", "a bar", "a bar"), given("length_mm", "length", 0.254, LENGTH)),
    (
        figure("seconds", "first", 40.0),
        figure("later_seconds", "second one", 80.0),
        figure("last_seconds", "third", 90.0, OTHER, "so so."),
        Figure("never_celsius", "fourth", None, TEMPERATURE, "it never does"),
        Fact(
            "name",
            "fifth",
            ["a", "b"],
            lambda units: "inches" if units.inches else "metric",
            "published",
            "fair",
            SOURCE,
        ),
    ),
)


def test_record() -> None:
    record = EXAMPLE.record
    assert record["reckoning"] == "example"
    assert record["given"] == {"what": "a bar", "length_mm": 254.0}
    assert (record["seconds"], record["never_celsius"], record["name"]) == (40.0, None, ["a", "b"])
    assert record["about"]["seconds"] == {
        "basis": "modelled",
        "range": [30.0, 60.0],
        "outside": False,
        "validity": "good",
        "source": SOURCE,
    }
    assert record["about"]["never_celsius"] == {"why": "it never does"}
    assert record["about"]["name"] == {"basis": "published", "validity": "fair", "source": SOURCE}


def test_lines() -> None:
    assert EXAMPLE.lines() == [
        "a bar; length 254 mm",
        "",
        "first       40 s    30 to 60 s          modelled",
        "second one  80 s    70 s to 1 min 40 s  modelled",
        "third       90 s    80 s to 1 min 50 s  modelled",
        "fourth      --",
        "fifth       metric                      published",
        "",
        "first, second one: good [1].",
        "third: so so [2].",
        "fourth: it never does.",
        "fifth: fair [1].",
        "[1] a book",
        "[2] a paper",
    ]


def test_a_long_cell_does_not_push_the_others_out() -> None:
    wires = "1260 degC for 3.25 mm, 1093 degC for 1.6 mm"
    rows = [("measured", "52.410 mV", "", "published"), ("wire lasts to", wires, "", "published")]
    assert columns(rows) == ["measured       52.410 mV  published", f"wire lasts to  {wires}  published"]


def test_behind_a_long_cell_nothing_is_lined_up() -> None:
    limits = "C 0.75 to 0.85, Mn 0.3 to 0.5, Si 0.15 %"
    rows = [("composition", limits, "", "from memory"), ("Ac1", "734 degC", "719 to 749 degC", "modelled")]
    assert columns(rows)[0] == f"composition  {limits}  from memory"


def test_the_answer_stands_first_in_lines_and_record() -> None:
    found = reckon_steel(find_grade("1084"), kelvin(820))
    asked = ["hardened_martensite_fraction", "hardened_ms_celsius", "hardening_celsius"]
    assert [one.key for one in found.answer] == found.record["answer"] == asked
    assert list(found.record)[2:5] == asked
    assert {one.key for one in found.besides}.isdisjoint(asked)
    assert len(found.answer) + len(found.besides) == len(found.found)
    assert found.lines()[:4] == [*found.brief(), ""]
    assert EXAMPLE.answer == ()


def test_where_it_is_not_austenite_the_answer_says_so() -> None:
    found = reckon_steel(find_grade("1045"), kelvin(700))
    assert found.answer[0].key == "dissolved_carbon_percent"
    assert "ferrite" in found.answer[0].notes()[0]


def test_every_figure_that_is_asked_for_is_one_that_is_found() -> None:
    """A key that is misspelt, or no longer there, would leave its place empty without a word."""
    bar, at, hour = Section(0.025, 0.025), kelvin(200), 3600.0
    press = Blows(StruckBy.PRESS, 1.0, 3.0)
    knife = find_piece("carving-knife")
    assert knife is not None
    answers = [
        reckon_cooling(bar, kelvin(1250), kelvin(900)),
        reckon_cooling(bar, kelvin(1250), kelvin(900), blows=press),
        reckon_soak(bar, kelvin(1250), kelvin(1200)),
        *(reckon_steel(grade, quenched) for grade in all_grades() for quenched in (None, kelvin(820))),
        reckon_decarb(0.8, kelvin(1200), 600.0),
        *(reckon_layers(1e-4, kelvin(1200), 60.0, carbon) for carbon in (None, 0.6)),
        reckon_scale(kelvin(1200), 600.0, bar),
        reckon_draw(bar, 0.1, Section(0.03, 0.008)),
        reckon_plan_stock(read_plan_file(SHELF / "kitchen-billet.toml")),
        reckon_piece(knife, Section(0.025, 0.01)),
        reckon_piece(knife, Section(0.0127, 0.0127), length=0.1, bars=3),
        reckon_skin(0.8, kelvin(1200), 240.0, 6),
        reckon_folds(7, 3),
        reckon_folds(7, 3, thickness=0.04, ground=Ground(5e-3, 1e-3, 0.03)),
        reckon_folds(7, 3, thickness=0.04, heats=WeldHeats(kelvin(1200), 600.0)),
        reckon_twist(bar, 0.08),
        reckon_composite([0.01, 0.02, 0.01]),
        reckon_bars(make_blade(0.04, 6e-3, 1e-3), 0.02),
        *(reckon_laminate(4e-3, 5e-4, 1.5e-3, 0.03, off) for off in (0.0, 6e-4)),
        reckon_notch(Section(0.05, 0.012), 0.016),
        reckon_wander(bar, (0.01, 0.015), (0.01, 0.015)),
        *(
            reckon_temper(at, hour, 0.8, other_time=time, other_temperature=other)
            for time in (None, 600.0)
            for other in (None, kelvin(230))
        ),
        reckon_glow(kelvin(1000)),
        *(reckon_squeeze(bar, kelvin(1100), 0.04, force) for force in (None, 1e5)),
        reckon_heats(bar, Section(0.02, 0.01)),
        reckon_forged(Section(0.03, 0.006), 0.002),
        reckon_bevels((14.2e-3, 13.1e-3, 14.0e-3, 13.6e-3), (1.1e-3, 0.9e-3), 6.2e-3),
        reckon_profile(0.8e-3, 27e-3, 0.9e-3, 6.2e-3),
        thermocouple(Kind.K, 0.04),
        thermocouple(Kind.K, at=kelvin(1000)),
        thermocouple(Kind.K, at=kelvin(300)),
        reckon_weight(bar, 0.3),
    ]
    seen = {one.key for found in answers for one in found.answer}
    never = {key for asked in ASKED for keys in asked.figures for key in keys} - seen
    assert never == set()
    assert all(found.answer for found in answers)


def test_a_piece_comes_out_of_bars_that_are_long_enough() -> None:
    knife = find_piece("carving-knife")
    assert knife is not None
    bar = Section(0.0127, 0.0127)
    needed = reckon_piece(knife, bar, bars=3).record
    # Cut as long as is asked for, what is left over is what was to be spare: 5 % of the bars without their saw cut.
    just = reckon_piece(knife, bar, length=needed["length_mm"] / 1000, bars=3).record
    assert just["left_over_fraction"] == pytest.approx(0.05, abs=1e-6)
    assert [
        reckon_piece(knife, bar, length=times * needed["length_mm"] / 1000, bars=3).record["comes_out"]
        for times in (0.7, 0.95, 1.3)
    ] == ["no", "if the heats take little", "yes"]
    with pytest.raises(ReckonError, match="smaller than the piece at its largest"):
        # The tang alone ends in 20 x 5 mm, more than the blade has: 96 mm2 will not do.
        reckon_piece(knife, Section(0.012, 0.008))


def test_the_carbon_ledger_tells_what_stock_loses() -> None:
    """What `skin` says of the same heats, drawn from the bar to the piece at its largest, 20 x 5 mm at the tang."""
    knife = find_piece("carving-knife")
    assert knife is not None
    bar = Section(0.025, 0.01)
    hot = SkinHeats(kelvin(1150), 60.0)
    found = reckon_piece(knife, bar, heats=6, skin=hot).record
    content = find_grade("1084").middle.carbon
    same = reckon_skin(content, kelvin(1150), 60.0, 6, section=bar, to=Section(0.020, 0.005)).record
    assert found["grinding_mm"] == same["grinding_allowance_mm"]
    # Of what goes into the fire that share is gone; the rest is the piece, what is ground off it, and its ends.
    forged = sum(found[key] for key in ("grinding_fraction", "ends_fraction"))
    finished = 1 - sum(value for key, value in found.items() if key.endswith("_fraction"))
    gone = found["scale_fraction"]
    assert gone / (gone + forged + finished) == pytest.approx(same["mass_fraction"], rel=1e-5)


def test_heats_are_the_same_whoever_is_asked() -> None:
    bar, flat = Section(0.025, 0.025), Section(0.03, 0.008)
    shop = Reckoned(0.3, "modelled", "", "", 0.25, 0.35)
    for reduction in (None, shop):
        one, other = reckon_heats(bar, flat, reduction).record, reckon_draw(bar, 0.1, flat, reduction=reduction).record
        assert one["heats"] == other["heats"]
        assert one["about"]["heats"]["range"] == other["about"]["heats"]["range"]


def test_lines_in_inches() -> None:
    lines = EXAMPLE.lines(Units.INCH)
    assert lines[0] == "a bar; length 10 in"
    assert any("inches" in line for line in lines)


def test_a_figure_outside_its_validity_says_so() -> None:
    known = Reckoned(1.0, "modelled", "", "", outside=True)
    assert Figure("seconds", "", known, SECONDS).stands_on == "modelled, outside its range"


def test_a_range_in_place_of_a_figure() -> None:
    known = Reckoned(kelvin(850), "published", "", "", kelvin(830), kelvin(870))
    span = Figure("hardening_celsius", "hardening", known, TEMPERATURE, spans=True)
    assert span.kept == [830.0, 870.0]
    assert (span.text(), span.range_text()) == ("830 to 870 degC", "")
    assert span.large() == ("830-870", "degC")
    one = Figure("x", "", Reckoned(kelvin(850), "published", "", "", kelvin(850), kelvin(850)), TEMPERATURE, spans=True)
    assert (one.text(), one.large()) == ("850 degC", ("850", "degC"))


def test_what_steel_has_against_it_is_laid_to_what_was_given() -> None:
    def refuse(_: float) -> float:
        raise SteelError("too much of it")

    with pytest.raises(ReckonError) as caught:
        blamed("carbon", refuse, 1.0)
    assert (caught.value.given, caught.value.why) == ("carbon", "too much of it")


def test_the_course_of_a_bar_that_cools() -> None:
    found = reckon_cooling(Section(0.025, 0.025), kelvin(1250), kelvin(900))
    first, last = found.curve[0], found.curve[-1]
    assert (first.seconds, first.skin) == (0.0, kelvin(1250))
    assert first.middle == pytest.approx(kelvin(1250))
    assert last.seconds == pytest.approx(found.record["seconds"])
    assert last.skin == pytest.approx(kelvin(900), abs=0.05)
    assert last.middle == pytest.approx(kelvin(found.record["middle_celsius"]))
    for before, after in pairwise(found.curve):
        assert after.seconds > before.seconds
        assert after.skin < before.skin
        assert after.middle > after.skin


def test_the_course_of_a_bar_that_soaks() -> None:
    found = reckon_soak(Section(0.025, 0.025), kelvin(1250), kelvin(1200))
    last = found.curve[-1]
    assert last.middle == pytest.approx(kelvin(1200), abs=0.05)
    assert last.skin == pytest.approx(kelvin(found.record["skin_celsius"]))
    assert found.record["skin_seconds"] < found.record["seconds"]
    assert all(after.skin > before.skin for before, after in pairwise(found.curve))


def test_without_an_emissivity_its_spread_is_in_the_range() -> None:
    bar = Section(0.025, 0.025)
    usual = reckoned(reckon_cooling(bar, kelvin(1250), kelvin(900)), "seconds")
    said = reckoned(reckon_cooling(bar, kelvin(1250), kelvin(900), emissivity=0.8), "seconds")
    assert usual.value == said.value
    assert usual.least is not None
    assert usual.most is not None
    assert (said.least, said.most) == (pytest.approx(0.98 * said.value), pytest.approx(1.02 * said.value))
    black, dull = (
        reckon_cooling(bar, kelvin(1250), kelvin(900), emissivity=each).record["seconds"] for each in (0.94, 0.7)
    )
    assert usual.least == pytest.approx(0.98 * black)
    assert usual.most == pytest.approx(1.02 * dull)


def test_what_the_constants_error_makes_of_an_equal_temper() -> None:
    at, hour = kelvin(220), 3600.0
    warmer = reckoned(reckon_temper(at, hour, 0.98, other_time=600.0), "instead_at_celsius")
    assert warmer.least is not None
    assert warmer.most is not None
    assert at < warmer.least < warmer.value < warmer.most < at + 60
    longer = reckoned(reckon_temper(at, hour, 0.98, other_temperature=kelvin(200)), "instead_for_seconds")
    assert longer.least is not None
    assert longer.most is not None
    assert hour < longer.least < longer.value < longer.most
    # Nothing is asked, so the constant does not matter.
    same = reckoned(reckon_temper(at, hour, 0.98, other_time=hour), "instead_at_celsius")
    assert same.least == pytest.approx(same.most)
