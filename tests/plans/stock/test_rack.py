"""The rack: which bar is cut, and what is left."""

from __future__ import annotations

from hypothesis import given, strategies as st

from plans.shapes import Section
from plans.stock import Need, RackBar, cut_from

THICK, THIN = Section(0.025, 0.025), Section(0.040, 0.004)


def of_section(section: Section, length: float, steel: str = "1084") -> Need:
    return Need(steel, lambda bar: length if bar == section else None)


def test_the_shortest_bar_that_will_do_is_cut() -> None:
    rack = [RackBar("1084", THICK, 1.0, 2), RackBar("1084", THICK, 0.3), RackBar("15N20", THICK, 0.25)]
    found = cut_from(rack, [of_section(THICK, 0.2), of_section(THICK, 0.28)])
    # 0.28 m comes first and takes the 0.3 m bar; 0.2 m then takes one of 1 m, as the 0.25 m is of another steel.
    assert [taken.bar.length for taken in found.taken] == [1.0, 0.3]
    assert [round(taken.offcut, 6) for taken in found.taken] == [0.8, 0.02]
    assert sorted((bar.steel, round(bar.length, 6), bar.pieces) for bar in found.left) == [
        ("1084", 0.02, 1),
        ("1084", 0.8, 1),
        ("1084", 1.0, 1),
        ("15N20", 0.25, 1),
    ]


def test_what_no_bar_will_do_for_is_told() -> None:
    found = cut_from(
        [RackBar("1084", THIN, 0.5)], [of_section(THICK, 0.1), of_section(THIN, 0.4), of_section(THIN, 0.2)]
    )
    assert found.missing == (0, 2)
    assert [taken.need for taken in found.taken] == [1]


def test_a_bar_that_is_as_long_as_needed_is_not_sawn() -> None:
    need = Need("1084", lambda _: 0.5, kerf=0.0015)
    whole = cut_from([RackBar("1084", THIN, 0.5)], [need])
    assert (whole.missing, whole.left, whole.taken[0].offcut) == ((), (), 0.0)
    sawn = cut_from([RackBar("1084", THIN, 0.6)], [need])
    assert [round(bar.length, 6) for bar in sawn.left] == [0.0985]


@given(
    st.lists(
        st.tuples(st.sampled_from([THICK, THIN]), st.floats(0.05, 2.0), st.integers(1, 3)), min_size=1, max_size=5
    ),
    st.lists(st.tuples(st.sampled_from([THICK, THIN]), st.floats(0.02, 1.5)), max_size=8),
)
def test_no_steel_is_lost_on_the_rack(
    bars: list[tuple[Section, float, int]], cuts: list[tuple[Section, float]]
) -> None:
    rack = [RackBar("1084", *bar) for bar in bars]
    found = cut_from(rack, [of_section(*cut) for cut in cuts])
    assert len(found.taken) + len(found.missing) == len(cuts)
    before = sum(bar.section.area * bar.length * bar.pieces for bar in rack)
    after = sum(bar.section.area * bar.length * bar.pieces for bar in found.left)
    taken = sum(one.bar.section.area * one.length for one in found.taken)
    assert abs(before - after - taken) < 1e-9 * before
    for number in found.missing:
        section, length = cuts[number]
        assert all(bar.section != section or bar.length < length for bar in found.left)
