"""The steels of a piece, and what is said of their temperatures: whose figure it is, and in the smith's own units."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import fields, is_dataclass

import pytest

from plans.maker.etching import etching
from plans.maker.hardening import hardening
from plans.maker.hot_work import HotWork, forging_concerns, heat_for
from plans.maker.normalizing import normalizing
from plans.maker.quenching import Medium, said_for
from plans.maker.steels import Steels, within
from plans.maker.tempering import Use, temper_for, tempering
from plans.maker.welding import weld_heat, weld_soak
from plans.maker.why import Chosen, Concern
from plans.prose import in_units, unreadable
from plans.steel import SteelError, What, all_grades
from plans.units import Units, celsius, kelvin


def everything(steels: Steels, thickness: float = 0.006) -> Iterator[object]:
    """All that there is of a piece's temperatures: records of `Chosen`, and concerns."""
    yield weld_heat(steels)
    yield from (heat_for(work, steels) for work in HotWork)
    yield from (weld_soak(thickness, first=True), weld_soak(thickness, first=False))
    yield from forging_concerns(steels)
    for found, concerns in (
        normalizing(steels),
        hardening(steels, thickness),
        *(tempering(steels, use) for use in Use),
        tempering(steels, wanted=kelvin(300)),
        etching(steels),
    ):
        yield found
        yield from concerns


def inside(found: object) -> Iterator[Chosen[object] | Concern]:
    """Each figure and each concern that a record holds, however deep."""
    if isinstance(found, Chosen | Concern):
        yield found
    elif isinstance(found, tuple):
        for each in found:
            yield from inside(each)
    elif is_dataclass(found):
        for field in fields(found):
            yield from inside(getattr(found, field.name))


PIECES = [(one.name,) for one in all_grades()] + [
    ("1084", "1018"), ("White 1", "wrought iron"), ("52100", "1084"), ("5160", "1084"), ("A2", "1018"),
    ("1084", "1095"), ("1084", "nickel 200"), ("nobody's", "1018"), ("1084", "15N20", "W2"),
]  # fmt: skip


@pytest.mark.parametrize("names", PIECES, ids="+".join)
def test_every_figure_says_whose_it_is_and_what_it_says_is_in_the_units_that_are_set(names: tuple[str, ...]) -> None:
    for thickness in (0.004, 0.02):
        for one in (each for found in everything(Steels.of(names), thickness) for each in inside(found)):
            texts = [one.why.said, one.why.source] if isinstance(one, Chosen) else [one.what, one.mend]
            if isinstance(one, Chosen) and one.why.basis not in ("asked", "arithmetic"):
                assert one.why.source, one
            for text in texts:
                said = Units.INCH.text(text)
                assert not re.search(r"degC|\d (?:K|mm)\b|  |None|--", said), said
            assert Units.METRIC.text(texts[0])[-1] in ".;?)" or texts[0] == "as you said", texts[0]


def test_two_names_of_one_grade_are_one_steel_and_the_edge_is_what_hardens() -> None:
    steels = Steels.of(["15N20", "75Ni8", "1018", "1084"], answers={"1018": "back"})
    assert [one.name for one in steels.all] == ["15N20", "1018", "1084"]
    assert [one.name for one in steels.edge] == ["1084", "15N20"]
    assert [one.answer for one in steels.all] == ["steel", "back", "steel"]
    assert [one.name for one in Steels.of(["1084", "W2"], edge=["1084"]).edge] == ["1084"]
    assert Steels.of(["1018"]).hard is None
    with pytest.raises(ValueError, match="one steel at least"):
        Steels.of([])


def test_a_steel_that_is_not_known_gets_safe_figures_and_is_told() -> None:
    steels = Steels.of(["1084", "5180"])
    (told,) = forging_concerns(steels)
    assert "5180" in str(told.what)
    assert "80CrV2" in str(told.mend), "a grade that somebody calls alike"
    known = weld_heat(Steels.of(["1084"]))
    assert weld_heat(steels).burn_above.value < known.burn_above.value
    hardened, _ = hardening(Steels.of(["nobody's"]), 0.005)
    assert hardened is not None
    assert hardened.heat_to.why.basis == "common practice"


def test_every_heat_that_a_sheet_has_for_a_medium_is_read_from_its_note() -> None:
    for grade in all_grades():
        for stated in grade.stated_for(What.HARDENING):
            (steel,) = Steels.of([grade.name]).all
            if re.search(r"\d into oil", stated.note):
                at = said_for(steel, Medium.OIL)
                assert at is not None
                assert stated.low <= at <= stated.high
            elif "into" not in stated.note:
                assert said_for(steel, Medium.OIL) is None


def test_a_temperature_in_a_range_is_round_where_it_can_be() -> None:
    assert celsius(within(kelvin(870), kelvin(920), 0.62)) == pytest.approx(900)
    assert celsius(within(kelvin(871), kelvin(871), 0.5)) == pytest.approx(871)
    assert celsius(within(kelvin(171), kelvin(174), 0)) == pytest.approx(171)


def test_a_quench_is_worded_as_a_plan_has_it() -> None:
    for name, thickness in (("1084", 0.005), ("W2", 0.02), ("A2", 0.005)):
        found, _ = hardening(Steels.of([name]), thickness)
        assert found is not None
        assert not list(unreadable(found.quench.text))
        assert len(in_units(found.quench.text, Units.INCH)) <= 60


def test_a_temper_that_is_brittle_or_far_too_hot_is_told() -> None:
    steels = Steels.of(["1084"])
    asked, concerns = tempering(steels, wanted=kelvin(300))
    assert asked is not None
    assert (asked.at.value, asked.at.why.basis) == (kelvin(300), "asked")
    assert [one.answer for one in concerns] == ["temper"]
    assert not tempering(steels, wanted=kelvin(210))[1]
    # 250 for what is struck, a spring of 5160 at 450, D2 at 510 for its second hardness: common practice, no source
    for name, at, serious in (("1084", 250, None), ("5160", 450, None), ("D2", 510, None), ("1084", 640, True)):
        told = tempering(Steels.of([name]), wanted=kelvin(at))[1]
        assert [one.serious for one in told] == ([] if serious is None else [serious]), name
    assert tempering(Steels.of(["1018"])) == (None, ())


@pytest.mark.parametrize(
    ("name", "hardness", "why"), [("O1", 60, "plain"), ("nobody's", 60, "plain"), ("1084", 70, "between")]
)
def test_a_hardness_that_is_not_known_is_not_made_up(name: str, hardness: float, why: str) -> None:
    (steel,) = Steels.of([name]).all
    with pytest.raises(SteelError, match=why):
        temper_for(steel, hardness)


def test_edge_steels_that_share_no_hardening_heat_meet_at_the_nearest_end_and_it_is_told() -> None:
    found, concerns = hardening(Steels.of(["1084", "5160"]), 0.005)
    assert found is not None
    assert any("no heat suits both" in Units.METRIC.text(one.what) for one in concerns)
    assert celsius(found.heat_to.value) == pytest.approx(810), "the hot end of 1084"


def test_steel_beside_the_edge_is_told_of_only_where_the_quench_is_not_for_it() -> None:
    assert hardening(Steels.of(["1084", "15N20"], edge=["1084"]), 0.005)[1] == ()
    for edge, beside, word in (("1084", "A2", "still air"), ("80WCrV8", "1084", "grain grows")):
        (told,) = hardening(Steels.of([edge, beside], edge=[edge]), 0.005)[1]
        assert beside in Units.METRIC.text(told.what)
        assert word in Units.METRIC.text(told.what)
