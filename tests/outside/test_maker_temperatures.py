"""The maker's temperatures against what is stated for each grade, the iron-carbon diagram, and common practice."""

from __future__ import annotations

from itertools import pairwise

import pytest

from plans.maker.etching import Contrast, etching
from plans.maker.hardening import hardening
from plans.maker.hot_work import HotWork, forging_concerns, heat_for
from plans.maker.normalizing import normalizing
from plans.maker.quenching import Medium
from plans.maker.steels import Steels
from plans.maker.tempering import Use, temper_for, tempering
from plans.maker.welding import weld_heat
from plans.steel import Composition, Grade, What, all_grades, card_of, solidus
from plans.units import celsius, kelvin

GRADES = [pytest.param(grade, id=grade.name) for grade in all_grades()]
THIN, THICK = 0.005, 0.015

# Solidus of iron and carbon alone [mass %, degC], to 1 K: bisection with pycalphad 0.11 over the description of Fe-C
# among its own test data (cfe_broshe.tdb), with liquid, austenite, ferrite and cementite.
COMPUTED = (
    (0.05, 1514.7), (0.2, 1489.0), (0.4, 1452.3), (0.6, 1417.4), (0.8, 1382.5),
    (1.0, 1346.7), (1.2, 1311.8), (1.4, 1275.1), (2.0, 1158.5),
)  # fmt: skip


@pytest.mark.parametrize(("carbon", "at"), COMPUTED)
def test_the_solidus_is_that_of_the_iron_carbon_diagram(carbon: float, at: float) -> None:
    melts = solidus(Composition(carbon=carbon))
    assert melts is not None
    assert celsius(melts.value) == pytest.approx(at, abs=4 if carbon <= 1.5 else 10)


@pytest.mark.parametrize("grade", GRADES)
def test_the_heats_of_every_grade_lie_in_the_order_that_they_must(grade: Grade) -> None:
    steels = Steels.of([grade.name])
    weld, melts, ac1 = weld_heat(steels), solidus(grade.middle), card_of(grade).ac1.best.value
    rising = (weld.flux_at, weld.keep_above, weld.heat_to, weld.fire, weld.burn_above)
    assert all(low.value < high.value for low, high in pairwise(rising))
    if melts is not None:
        assert weld.burn_above.value <= melts.value - 40
    for work in HotWork:
        heat = heat_for(work, steels)
        assert heat.keep_above.value + 50 <= heat.heat_to.value < heat.fire.value <= heat.burn_above.value
        if work is not HotWork.STRAIGHTEN:
            assert heat.heat_to.value < weld.heat_to.value
            # A forge's chart (weforging.com, forging temperature of steel) has carbon steel begun at 1150 to 1250 degC,
            # alloy steel at 1100 to 1200, tool steel at 1000 to 1150, all of it ended between 850 and 950.
            assert 850 <= celsius(heat.keep_above.value) <= 975
        elif ac1 is not None:
            # nothing turns to austenite; blue brittleness is over above some 400 degC (from memory)
            assert celsius(heat.keep_above.value) > 400
            assert heat.heat_to.value < ac1
    start = celsius(heat_for(HotWork.DRAW, steels).heat_to.value)
    assert 1000 <= start <= (1150 if grade.middle.carbon > 0.7 else 1250)


@pytest.mark.parametrize("grade", GRADES)
def test_every_grade_is_treated_within_what_is_stated_for_it(grade: Grade) -> None:
    steels = Steels.of([grade.name])
    cycles, _ = normalizing(steels)
    quenched, _ = hardening(steels, THIN)
    tempered, _ = tempering(steels)
    hardness = grade.stated_for(What.HARDENING)
    if hardness:
        assert quenched is not None
        assert _inside(quenched.heat_to.value, grade, What.HARDENING)
        read = all(one.source.looked_up for one in hardness)
        assert quenched.heat_to.why.basis == ("published" if read else "from memory")
    if quenched is not None:
        ac1 = card_of(grade).ac1.best.value
        assert ac1 is None or quenched.heat_to.value > ac1 + 30
        assert quenched.heat_to.value < quenched.burn_above.value
    if cycles is not None and grade.stated_for(What.NORMALIZING):
        assert _inside(cycles.heat_to.value[0], grade, What.NORMALIZING)
    if cycles is not None:
        assert all(high > low for high, low in pairwise(cycles.heat_to.value))
        assert all(fire > heat for fire, heat in zip(cycles.fire.value, cycles.heat_to.value, strict=True))
    assert (cycles is None) or not grade.air_hardening
    stated = grade.stated_for(What.TEMPERING)
    if tempered is not None and any(celsius(one.low) < 230 for one in stated):
        assert _inside(tempered.at.value, grade, What.TEMPERING)
    for use in Use:
        tempered, _ = tempering(steels, use)
        if tempered is not None and grade.no_brittle_range is None and not grade.air_hardening:
            assert not 260 < celsius(tempered.at.value) < 370, "the brittle range, common practice, no source"


def _inside(value: float, grade: Grade, what: What) -> bool:
    """Whether somebody's range for the grade holds a temperature."""
    return any(one.low - 0.01 <= value <= one.high + 0.01 for one in grade.stated_for(what))


@pytest.mark.parametrize(
    "grade", [one for one in all_grades() if one.stated_for(What.HARDENING)], ids=lambda one: one.name
)
def test_the_quench_is_what_the_sheet_says(grade: Grade) -> None:
    said = " ".join(one.note for one in grade.stated_for(What.HARDENING))
    thin, thick = (hardening(Steels.of([grade.name]), size)[0] for size in (THIN, THICK))
    assert thin is not None
    assert thick is not None
    if grade.air_hardening:
        assert thin.quench.medium.value is Medium.AIR
    elif "oil" in said:
        assert {thin.quench.medium.value, thick.quench.medium.value} <= {Medium.OIL, Medium.FAST_OIL}
    elif "water" in said:
        # knives of such steels go into fast oil: common practice, no source
        assert (thin.quench.medium.value, thick.quench.medium.value) == (Medium.FAST_OIL, Medium.BRINE)


def test_where_a_sheet_has_a_heat_for_oil_it_is_that() -> None:
    # Lucefin's cards for C45U, 102Cr6 and 42CrMo4, as the table of grades has them
    for name, oil in (("C45U", 830), ("102Cr6", 850), ("42CrMo4", 860)):
        found, _ = hardening(Steels.of([name]), THIN)
        assert found is not None
        assert celsius(found.heat_to.value) == pytest.approx(oil)


# Common practice, no source: what smiths weld together, the welding heat that is usual [degC], what the weld is worth
# (None: nothing against it; False: a doubt; True: it fails as it is), and how it looks in ferric chloride.
PAIRS = (
    ("1084", "15N20", 1200, 1260, None, Contrast.STRONG),
    ("1095", "15N20", 1200, 1260, None, Contrast.STRONG),
    ("1075", "15N20", 1200, 1260, None, Contrast.STRONG),
    ("80CrV2", "15N20", 1200, 1260, None, Contrast.STRONG),
    ("O2", "75Ni8", 1200, 1260, None, Contrast.STRONG),
    ("90MnCrV8", "75Ni8", 1180, 1260, None, Contrast.STRONG),
    ("1084", "1018", 1240, 1320, None, Contrast.SOME),
    ("W1", "1018", 1230, 1320, None, Contrast.SOME),
    ("1084", "wrought iron", 1240, 1320, None, Contrast.SOME),
    ("W2", "wrought iron", 1230, 1320, None, Contrast.SOME),
    ("C105U", "S235JR", 1220, 1320, False, Contrast.SOME),
    ("White 1", "wrought iron", 1150, 1230, False, Contrast.SOME),
    ("Blue Super", "wrought iron", 1120, 1200, True, Contrast.SOME),
    ("1084", "1095", 1200, 1260, None, Contrast.LITTLE),
    ("1084", "nickel 200", 1200, 1260, False, Contrast.STRONG),
    ("52100", "15N20", 1180, 1260, False, Contrast.STRONG),
    ("A2", "1018", 1050, 1150, True, Contrast.STRONG),
    ("D2", "15N20", 1050, 1150, True, Contrast.STRONG),
)  # fmt: skip


@pytest.mark.parametrize(("one", "other", "low", "high", "against", "contrast"), PAIRS)
def test_pairs_that_smiths_weld_suit_each_other_as_practice_has_it(
    one: str, other: str, low: float, high: float, against: bool | None, contrast: Contrast
) -> None:
    steels = Steels.of([one, other])
    weld = weld_heat(steels)
    assert low <= celsius(weld.heat_to.value) <= high
    assert weld.flux_at.value < weld.keep_above.value < weld.heat_to.value < weld.fire.value < weld.burn_above.value
    alone = [weld_heat(Steels.of([name])).burn_above.value for name in (one, other)]
    assert weld.burn_above.value == min(alone), "that of the one which burns first"
    serious = [concern.serious for concern in weld.concerns]
    assert (any(serious) if serious else None) is against
    for work in HotWork:
        heat = heat_for(work, steels)
        first, second = (heat_for(work, Steels.of([name])) for name in (one, other))
        assert heat.keep_above.value >= max(first.keep_above.value, second.keep_above.value)
        assert heat.heat_to.value <= max(min(first.heat_to.value, second.heat_to.value), heat.keep_above.value + 50)
        if work is not HotWork.STRAIGHTEN:
            assert celsius(heat.keep_above.value) >= 900, "laminated work is not struck colder: common practice"
        assert heat.keep_above.value + 30 < heat.heat_to.value < heat.burn_above.value
    etch, _ = etching(steels)
    assert etch.contrast.value is contrast
    # 3 to 5 dips of 10 to 15 min: common practice, no source
    assert 3 <= etch.dips.value <= 5
    assert 600 <= etch.seconds.value <= 900


def test_hot_short_steel_is_refused_and_air_hardening_steel_is_not_normalized() -> None:
    assert any(one.serious for one in forging_concerns(Steels.of(["1215", "1084"])))
    assert not forging_concerns(Steels.of(["1084", "15N20"]))
    cycles, concerns = normalizing(Steels.of(["1084", "A2"], edge=["1084"]))
    assert cycles is None
    assert "nneal" in str(concerns[0].mend)


def test_steel_with_much_chromium_is_not_welded_under_borax() -> None:
    # common practice, no source: borax does not take the oxide of chromium
    (told,) = weld_heat(Steels.of(["D2", "X153CrMoV12"])).concerns[:1]
    assert told.serious
    assert "borax" in str(told.what)


def test_of_three_steels_the_two_that_differ_most_make_the_pattern() -> None:
    etch, concerns = etching(Steels.of(["1084", "1095", "15N20"]))
    assert etch.contrast.value is Contrast.STRONG
    assert not concerns


def test_what_is_usual_for_an_edge_of_simple_steel() -> None:
    # Common practice, no source: 0.8 %C normalized from 900, 845, 790 degC; quenched from 790 to 815 after 5 min into
    # oil of 50 to 60 degC within 2 to 3 s; tempered twice for 2 h at 175 to 230, within 1 to 2 h.
    steels = Steels.of(["1084"])
    cycles, _ = normalizing(steels)
    quenched, _ = hardening(steels, THIN)
    tempered, _ = tempering(steels)
    assert cycles is not None
    assert quenched is not None
    assert tempered is not None
    assert [celsius(at) for at in cycles.heat_to.value] == pytest.approx([900, 845, 790], abs=6)
    assert 180 <= cycles.soak.value <= 600
    assert 790 <= celsius(quenched.heat_to.value) <= 815
    assert quenched.soak.value == 300
    assert 50 <= celsius(quenched.quench.at.value) <= 60
    assert 2 <= quenched.quench.within.value <= 3
    assert 175 <= celsius(tempered.at.value) <= 230
    assert (tempered.seconds.value, tempered.holds.value) == (7200, 2)
    assert tempered.within.value <= 7200


def test_a_wanted_hardness_is_met_where_practice_has_it() -> None:
    # 1095 for knives, 60 to 62 HRC: two holds of 2 h at about 200 to 220 degC; common practice, no source
    (steel,) = Steels.of(["1095"]).all
    assert kelvin(170) <= temper_for(steel, 61).value <= kelvin(230)
    assert temper_for(steel, 62).value < temper_for(steel, 59).value
