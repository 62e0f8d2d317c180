"""From the piece to the saw cut and forward, against arithmetic by hand; no steel is lost without a name."""

from __future__ import annotations

from math import isclose

import pytest
from hypothesis import given, strategies as st

from plans.shapes import Blade, Body, Runout, Section
from plans.stock import (
    Allowances,
    LossKind,
    ScaleLoss,
    comes_out,
    drawn_length,
    saw_cut,
)

NOTHING = ScaleLoss(0.0, 0.0, 0.0)
BARE = Allowances(grinding=0, ends=0, heats=0, scale=NOTHING, spare=0, stub=0, kerf=0)
FLAT = Blade((Body(Section(0.030, 0.008), 0.150),))


def test_drawing_out_keeps_the_volume() -> None:
    # A0 L0 = A1 L1: 25.4 mm square, 100 mm long, to 12.7 mm square is four times as long.
    square, half = Section(0.0254, 0.0254), Section(0.0127, 0.0127)
    assert drawn_length(square, 0.100, half) == pytest.approx(0.400)
    # 30 x 8 mm, 150 mm long, from 20 mm round: 36,000 mm3 over 314.16 mm2 is 114.592 mm; six heats that take 1.5 % each
    # make that 114.592 / 0.985^6 = 125.469 mm.
    bar, to = Section.round(0.020), Section(0.030, 0.008)
    assert drawn_length(bar, 0.114592, to) == pytest.approx(0.150, rel=1e-5)
    assert drawn_length(bar, 0.125469, to, 0.985**6) == pytest.approx(0.150, rel=1e-5)


def test_each_loss_by_hand() -> None:
    # 30 x 8 x 150 mm is 36,000 mm3. Half a millimetre off its skin of 2 (30 + 8) 150 + 2 x 30 x 8 = 11,880 mm2 is
    # 5,940 mm3: 41,940. 5 mm off each end of 279.6 mm2 is 2,796: 44,736. Ten heats of 2 % leave 0.817073: 54,751.6. A
    # tenth spare: 60,835.1. Off a bar of 25 mm square that is 97.336 mm, and 20 mm of stub: 117.336 mm beside the kerf.
    allowances = Allowances(0.0005, 0.005, 10, ScaleLoss(0.02, 0.01, 0.03), 0.1, 0.020, 0.0015)
    cut = saw_cut(FLAT, Section(0.025, 0.025), allowances)
    assert cut.length == pytest.approx(0.117336, abs=2e-6)
    by_hand = {
        LossKind.GRINDING: 5940,
        LossKind.ENDS: 2796,
        LossKind.SCALE: 10015.6,
        LossKind.SPARE: 6083.5,
        LossKind.STUBS: 12500,
        LossKind.KERF: 937.5,
    }
    assert {loss.kind: loss.volume * 1e9 for loss in cut.losses} == pytest.approx(by_hand, abs=0.1)
    assert cut.least < cut.length < cut.most
    # 0.97^10 = 0.737424: 60,665.2, spare 67,405.8, 107.849 + 20 mm.
    assert cut.most == pytest.approx(0.127849, abs=2e-6)


def test_without_losses_the_cut_is_the_piece() -> None:
    cut = saw_cut(FLAT, Section(0.030, 0.008), BARE)
    assert cut.length == pytest.approx(0.150)
    assert cut.losses == ()


def test_whether_bars_are_enough() -> None:
    bar = Section(0.025, 0.025)
    allowances = Allowances(heats=10, spare=0, kerf=0)
    enough = saw_cut(FLAT, bar, allowances).length
    assert comes_out(FLAT, [(bar, enough)], allowances).spare == pytest.approx(0, abs=1e-12)
    assert comes_out(FLAT, [(bar, enough), (bar, enough)], allowances).spare == pytest.approx(0.5)
    assert comes_out(FLAT, [(bar, enough / 2)], allowances).spare == pytest.approx(-1)


def test_three_half_inch_bars_make_a_double_edged_blade_of_ten_inches() -> None:
    # Common practice, no source: three 1/2 in square bars of 4 1/4 in make a double-edged blade of about 10 1/4 in and
    # a stick tang, forged to about 5/16 in. The blade's width is not told; 1 1/8 in is our own guess at it.
    inch = 0.0254
    section = Section(1.125 * inch, 5 / 16 * inch)
    blade = Blade(
        (
            Body(Section(0.4 * inch, 0.3 * inch), 2.5 * inch, Section(0.25 * inch, 0.2 * inch), name="tang"),
            Body(section, 8.25 * inch, name="blade"),
            Body(section, 2.0 * inch, Runout.TIP, name="point"),
        )
    )
    bars = [(Section(inch / 2, inch / 2), 4.25 * inch)] * 3
    spare = comes_out(blade, bars, Allowances(grinding=0, ends=0, heats=8)).spare
    assert -0.35 < spare < 0.35


SIDES = st.floats(0.002, 0.06)
SHARES = st.floats(0.0, 0.4)


@given(
    SIDES,
    SIDES,
    st.floats(0.01, 1.0),
    SIDES,
    st.floats(0, 0.002),
    st.floats(0, 0.02),
    st.integers(0, 30),
    SHARES,
    SHARES,
)
def test_what_goes_in_comes_out_or_has_a_name(
    wide: float,
    thick: float,
    length: float,
    side: float,
    grinding: float,
    ends: float,
    heats: int,
    scale: float,
    spare: float,
) -> None:
    section = Section(max(wide, thick), min(wide, thick))
    piece = Blade((Body(section, length), Body(section, length / 3, Runout.TIP)))
    bar = Section(side, side)
    allowances = Allowances(grinding, ends, heats, ScaleLoss(scale, scale / 2, min(0.5, 2 * scale)), spare, 0.01, 0.001)
    cut = saw_cut(piece, bar, allowances)
    taken = (cut.length + allowances.kerf) * bar.area
    assert isclose(taken, cut.finished + sum(loss.volume for loss in cut.losses), rel_tol=1e-9)
    assert cut.least <= cut.length * (1 + 1e-9)
    assert cut.length <= cut.most * (1 + 1e-9)
