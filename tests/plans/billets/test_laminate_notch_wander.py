"""Three layers across a bevel, a notch closed at the point, and a core that leans."""

from __future__ import annotations

from math import cos, hypot, radians, sin

import pytest

from plans.billets.errors import BilletError
from plans.billets.laminate import Laminate
from plans.billets.notch import EASY, TOO_THIN, heats_for, notch_for
from plans.billets.wander import Corners, wandered
from plans.units import INCH


def test_the_line_of_a_laminate_by_hand() -> None:
    # 30 (1.5 - 0.5) / (4 - 0.5) = 8.5714 mm; (1.5 - 0.5) / 2 = 0.5 mm; (1.5 + 0.5) / 2 = 1 mm.
    laminate = Laminate(4e-3, 0.5e-3, 1.5e-3, 30e-3)
    assert laminate.line_height.value == pytest.approx(8.5714e-3, abs=1e-7)
    assert (laminate.may_wander.value, laminate.is_lost.value) == (pytest.approx(0.5e-3), pytest.approx(1e-3))


def test_a_core_that_has_wandered_so_far_lets_the_edge_go() -> None:
    laminate = Laminate(4e-3, 0.5e-3, 1.5e-3, 30e-3)
    # At the height of the line the blade is as thick, from the middle to that side, as the core reaches there.
    for off in (0.0, 0.2e-3, -0.3e-3):
        half = (0.5e-3 + laminate.line(off) / 30e-3 * 3.5e-3) / 2
        assert half == pytest.approx(1.5e-3 / 2 + off)
    assert laminate.line(-laminate.may_wander.value) == pytest.approx(0.0)
    assert laminate.is_lost.value - 1.5e-3 / 2 == pytest.approx(0.5e-3 / 2), "then the core begins where the edge ends"


@pytest.mark.parametrize(("core", "why"), [(0.5e-3, "no thicker than the edge"), (4e-3, "thinner than the spine")])
def test_what_is_no_laminate(core: float, why: str) -> None:
    with pytest.raises(BilletError, match=why):
        Laminate(4e-3, 0.5e-3, core, 30e-3)


def test_a_notch_by_hand() -> None:
    # Jacket of 6.35 mm to be left and 6.35 mm to be ground back: 12.7 mm of flank, sin 30 = 1/2, so 6.35 mm a side.
    found = notch_for(50e-3, 12.7e-3, 16e-3, jacket=INCH / 4, angle=60)
    assert found.mouth.value == pytest.approx(28.7e-3)
    assert found.depth.value == pytest.approx(14.35e-3 * 3**0.5)
    assert found.weld_line.value == pytest.approx(28.7e-3), "with 60 degrees the V is as long as it is wide"
    assert found.prong.value == pytest.approx(10.65e-3)
    # Common practice, no source: usually 1/4 in at the tip.
    assert found.grind_back.value == pytest.approx(6.35e-3)
    assert found.grind_back.basis == "common practice"


def test_what_of_the_flank_lies_outside_the_core_is_jacket_at_the_closed_point() -> None:
    """Turned about the bottom of the V, point by point."""
    angle, core, jacket = 46.0, 12e-3, 5e-3
    found = notch_for(40e-3, 12e-3, core, jacket=jacket, angle=angle)
    share = core / found.mouth.value
    mouth, border = ((found.depth.value * part, found.mouth.value / 2 * part) for part in (1.0, share))
    half = radians(angle / 2)
    closed = [(x * cos(half) + y * sin(half), y * cos(half) - x * sin(half)) for x, y in (mouth, border)]
    assert [y for _, y in closed] == pytest.approx([0.0, 0.0], abs=1e-12), "the flanks meet on the middle line"
    assert closed[0][0] == pytest.approx(found.weld_line.value)
    assert closed[0][0] - closed[1][0] == pytest.approx(jacket + found.grind_back.value)


def test_a_wide_radius_leaves_a_line() -> None:
    # Common practice, no source. 4 mm in 12 mm stock drawn to 6 is a groove of 2 mm; 1 mm of grinding leaves 1 mm.
    found = notch_for(50e-3, 12e-3, 16e-3, radius=4e-3, drawn_to=6e-3, grind=1e-3)
    assert (found.groove.value, found.groove_left.value) == (pytest.approx(2e-3), pytest.approx(1e-3))
    assert notch_for(50e-3, 12e-3, 16e-3, radius=found.widest_radius.value, drawn_to=6e-3).groove_left.value == 0
    assert notch_for(50e-3, 12e-3, 16e-3, radius=0.5e-3, drawn_to=6e-3).groove_left.value == 0


def test_thin_stock_does_not_close() -> None:
    # Common practice, no source: 3/16 in is too thin to close well, 1/2 in is easy.
    assert (pytest.approx(3 / 16), pytest.approx(1 / 2)) == (TOO_THIN / INCH, EASY / INCH)
    thin, easy = heats_for(TOO_THIN), heats_for(EASY)
    assert thin.outside
    assert not easy.outside
    assert thin.value > heats_for(INCH / 4).value > easy.value


def test_a_notch_wider_than_the_bar() -> None:
    with pytest.raises(BilletError, match=r"33\.3 mm \(1 5/16 in\) wide at the end"):
        notch_for(30e-3, 12e-3, 24e-3, jacket=3e-3)


@pytest.mark.parametrize("shear", [-4e-3, -1.5e-3, 2e-3, 5e-3])
def test_a_section_that_was_sheared_is_struck_on_its_long_diagonal(shear: float) -> None:
    """A bar with an upright core is leaned by hand; what shows then must tell the lean and the corner."""
    width, thick, begin, end = 30e-3, 12e-3, 9e-3, 17e-3
    # From the left side of the bar as it is once it is square again: half of the shear went each way.
    front, back = ((begin + part, end + part) for part in (shear / 2, -shear / 2))
    found = wandered(width, thick, front, back)
    assert found.across.value == pytest.approx(shear)
    assert sin(radians(found.lean.value)) / cos(radians(found.lean.value)) == pytest.approx(shear / thick)
    corners = {"right": (width + shear, thick), "left": (shear, thick)}
    across = {"right": (0.0, 0.0), "left": (width, 0.0)}
    long = {name: hypot(x - across[name][0], y) for name, (x, y) in corners.items()}
    assert found.corners.value == max(long, key=long.__getitem__)
    assert found.diagonals.value == pytest.approx(max(long.values()) - min(long.values()))
    assert found.off.value == pytest.approx(13e-3 - 15e-3)


def test_within_what_a_rule_tells_no_corner_is_struck() -> None:
    found = wandered(30e-3, 12e-3, (10.4e-3, 20e-3), (10e-3, 20e-3))
    assert found.corners is Corners.NONE
    assert found.across.least is not None
    assert found.across.most is not None
    assert found.across.least < 0 < found.across.most


@pytest.mark.parametrize("front", [(20e-3, 10e-3), (-1e-3, 5e-3), (10e-3, 31e-3)])
def test_a_core_outside_the_bar(front: tuple[float, float]) -> None:
    with pytest.raises(BilletError, match="front: give where the core begins and ends"):
        wandered(30e-3, 12e-3, front, (10e-3, 20e-3))
