"""The steel of three plans that ship from the saw to the finished piece: hand arithmetic, and quadrature by scipy.

Every length is worked out here from the bars: 2 % of the steel goes to scale in each heat (common practice: 1 to 3 %,
no source), a saw cut takes 1.5 mm, and what is cut off is counted. Figures in mm and mm3; a plan writes three digits.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest
from scipy.integrate import dblquad, quad

from plans.maker import propose
from plans.plan import Plan, Step
from plans.reader import SHELF, made_from, read_plan_file

MM, MM3 = 1e-3, 1e-9
LEFT = 0.98


def load(name: str) -> Plan:
    return read_plan_file(SHELF / f"{name}.toml")


def stock(plan: Plan) -> float:
    return sum(bar.section.area * bar.length for bar in plan.bars) / MM3


def step(plan: Plan, title: str) -> Step:
    return next(one for one in plan.steps if one.title == title)


def begins(plan: Plan, title: str) -> float:
    found = step(plan, title).length
    assert found is not None
    return found / MM


def ends(plan: Plan, title: str) -> float:
    found = step(plan, title).reach_length
    assert found is not None
    return found / MM


def written(value: float) -> object:
    """A length as a plan has it: three digits, and half a millimetre beside what was worked out from rounded sides."""
    return pytest.approx(value, abs=0.6, rel=0.004)


def solid(width: Callable[[float], float], thick: Callable[[float, float], float], length: float) -> float:
    """Volume of a body by quadrature: its thickness at a place along and a share of its width across."""
    across = dblquad(lambda share, along: width(along) * thick(along, share), 0, length, 0, 1)
    return float(across[0])


def finished(name: str) -> float:
    answers = made_from(load(name).source, name)
    assert answers is not None
    piece = propose(answers).finished
    assert piece is not None
    return piece.volume / MM3


def test_a_wedge_of_one_bar() -> None:
    plan = load("splitting-wedge")
    assert stock(plan) == pytest.approx(45 * 45 * 80)  # 162,000
    # one heat, then 51 x 29: 162,000 x 0.98 / 1,479 = 107.3; 5 mm cut off each end and 4.0 to spare leave 93.3
    assert ends(plan, "Draw it out") == written(162_000 * LEFT / (51 * 29))
    assert 0 < 107.3 - 2 * 5 - begins(plan, "Taper it towards the edge") < 0.05 * 107.3
    # it tapers from 29 to 2 mm, 35 % of the area in a heat: 29 x 0.65^6 = 2.2, so that it takes seven
    assert step(plan, "Taper it towards the edge").heats == 7
    tapered, _ = quad(lambda x: 51 * (29 - (29 - 2) * x / 151.7), 0, 151.7)
    assert tapered == pytest.approx(93.3 * 51 * 29 * LEFT**7, rel=0.003)
    assert ends(plan, "Taper it towards the edge") == written(151.7)
    # 50 x 28 mm at the poll, running out to an edge across all of its width: half of 50 x 28 x 150
    assert finished("splitting-wedge") == pytest.approx(50 * 28 * 150 / 2)


def test_a_knife_of_one_bar() -> None:
    plan = load("chisel-knife")
    assert stock(plan) == pytest.approx(30 * 8 * 153)  # 36,720
    flat = 34 * 5
    assert ends(plan, "Draw it out") == written(36_720 * LEFT**2 / flat)
    parts = [begins(plan, title) for title in ("Draw the tang", "Forge the point", "Forge the bevels")]
    assert parts == [written(55.3), written(12.8), written(120.4)]
    # 207.4 mm less 5 off each end are 197.4: what the parts leave of it is spare, 5 % of them at most and a rounded saw
    assert 0 < 36_720 * LEFT**2 / flat - 10 - sum(parts) < 0.06 * sum(parts)
    assert ends(plan, "Draw the tang") == written(55.3 * flat * LEFT**5 / (17 * 5))
    assert ends(plan, "Forge the bevels") == written(120.4 * flat * LEFT**2 / (43 * (5 + 2) / 2))
    # the point goes from the wedge of 43 x 5 mm, 2 mm at the edge, to 4 x 2 mm, each side along a straight line
    point = solid(lambda x: 43 - 39 * x / 30, lambda x, s: 2 + (5 - 3 * x / 30 - 2) * s, 30)
    assert point == pytest.approx(12.8 * flat * LEFT**2, rel=0.005)
    # finished: a wedge of 42 x 4 mm to 0.6, 130 mm long, that runs out over 30 mm, and a tang of 16 x 4 x 100
    blade = solid(lambda _: 42.0, lambda _, s: 0.6 + 3.4 * s, 130)
    tip = solid(lambda x: 42 * (1 - x / 30), lambda x, s: (0.6 + 3.4 * s) * (1 - x / 30), 30)
    assert finished("chisel-knife") == pytest.approx(blade + tip + 16 * 4 * 100, rel=1e-3)


def test_a_double_edge_with_a_twisted_core() -> None:
    plan = load("twisted-core")
    # three pieces and two of 20 x 3 x 95, two and one saw cuts between them; two jackets of 12 x 12 x 101 and a cut
    cuts = 20 * 3 * (3 * 95 + 2 * 1.5) + 20 * 3 * (2 * 95 + 1.5) + 12 * 12 * (2 * 101 + 1.5)
    assert stock(plan) == pytest.approx(cuts, rel=0.005)  # bars are cut to whole millimetres
    stack = 20 * 15 * 95 * LEFT**3  # one heat sets the weld, two close it
    assert ends(plan, "Weld the whole length") == written(stack / (20.5 * 13.5))
    square = step(plan, "Draw the billet out square")
    core = stack * LEFT**square.heats
    assert ends(plan, "Draw the billet out square") == written(core / 13**2)
    # two heats twist it, and the 25 mm that vice and wrench have held are cut off; two forge it square again, and 4 %
    # is ground off its faces
    core = (core * LEFT**2 - 2 * 25 * 13**2) * LEFT**2 * 0.96
    assert ends(plan, "Forge the twist square again") == written(core / 12**2)
    assert begins(plan, "Set the bars") == written(min(core / 12**2, 101.0))
    # one heat sets them, three weld them, and one proves them: 12 x 0.97 = 11.64, to half a millimetre 11.5, and 0.88
    # of that 10.1, or 10
    billet = 36 * 12 * min(core / 12**2, 101.0) * LEFT**5
    assert ends(plan, "Prove the weld") == written(billet / (35 * 10))
    billet -= 24.3 * 21.0 / 2 * 10  # the V
    assert begins(plan, "Close the notch and weld it") == written(billet / (35 * 10))
    # four heats of the end alone, two fifths of it; then 6 mm are ground back where it is half as wide
    billet = billet * (1 - 0.4 * (1 - LEFT**4)) - 6 * 35 * 10 / 2
    assert begins(plan, "Draw it out") == written(billet / (35 * 10))
    flat = 24.5 * 6
    drawn = billet * LEFT**4 / flat
    assert ends(plan, "Draw it out") == written(drawn)
    assert ends(plan, "Draw the tang") == written(begins(plan, "Draw the tang") * flat * LEFT**3 / (16 * 6))
    rest = drawn - begins(plan, "Draw the tang") - begins(plan, "Taper it towards the point")
    # 5 mm are cut off the tang end, nothing off the closed point; the rest is spare
    assert 0 < rest - 5 < 0.07 * drawn
    taper = begins(plan, "Taper it towards the point") * flat * LEFT**2
    assert ends(plan, "Taper it towards the point") == written(taper / (24.5 * 4.9))
    # a diamond of 31 x 4.9 mm, 2 mm at both edges, to 4 x 2 mm over 45 mm
    point = solid(lambda x: 31 - 27 * x / 45, lambda x, s: 2 + (4.9 - 2.95 * x / 45 - 2) * (1 - abs(2 * s - 1)), 45)
    assert point == pytest.approx(begins(plan, "Forge the point") * 24.5 * 4.9 * LEFT**2, rel=0.5 / 20)
    diamond = 31 * (4.9 + 2) / 2
    bevels = begins(plan, "Forge the bevels") * 24.5 * 4.9 * LEFT**2
    assert ends(plan, "Forge the bevels") == written(bevels / diamond)
    # 190 mm of blade, and what bars that are cut to whole millimetres have over: one of 36 x 12 mm, less 20 % of scale
    over = ends(plan, "Forge the bevels") + 45 - 190
    assert 0 <= over <= 36 * 12 * 1 * 0.8 / diamond + 0.5
    # finished: 30 mm wide, 5 mm at the ridge and 0.65 of it where the point begins, 0.6 mm at both edges, a tang 15 x 5
    blade = solid(lambda _: 30.0, lambda x, s: 0.6 + (5 - 1.75 * x / 145 - 0.6) * (1 - abs(2 * s - 1)), 145)
    tip = solid(lambda x: 30 - 30 * x / 45, lambda x, s: (0.6 + (3.25 - 0.6) * (1 - abs(2 * s - 1))) * (1 - x / 45), 45)
    assert finished("twisted-core") == pytest.approx(blade + tip + 15 * 5 * 100, rel=1e-3)
