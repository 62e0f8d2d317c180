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
    assert stock(plan) == pytest.approx(45 * 45 * 73)  # 147,825
    # one heat, then 51 x 29: 147,825 x 0.98 / 1,479 = 97.95; 5 mm cut off each end and 4.05 to spare leave 83.9
    assert ends(plan, "Draw it out") == written(147_825 * LEFT / (51 * 29))
    assert 0 < 97.95 - 2 * 5 - begins(plan, "Taper it towards the edge") < 0.05 * 97.95
    # it tapers from 29 to 2 mm: two heats
    tapered, _ = quad(lambda x: 51 * (29 - (29 - 2) * x / 150.8), 0, 150.8)
    assert tapered == pytest.approx(83.9 * 51 * 29 * LEFT**2, rel=0.002)
    assert ends(plan, "Taper it towards the edge") == written(150.8)
    # 50 x 28 mm at the poll, running out to an edge across all of its width: half of 50 x 28 x 150
    assert finished("splitting-wedge") == pytest.approx(50 * 28 * 150 / 2)


def test_a_knife_of_one_bar() -> None:
    plan = load("chisel-knife")
    assert stock(plan) == pytest.approx(30 * 8 * 153)  # 36,720
    flat = 33.97 * 5
    assert ends(plan, "Draw it out") == written(36_720 * LEFT**2 / flat)
    parts = [begins(plan, title) for title in ("Draw the tang", "Forge the point", "Forge the bevels")]
    assert parts == [written(55.4), written(12.8), written(121.0)]
    # 207.6 mm less 5 off each end are 197.6: what the parts leave of it is spare, 5 % of them at most and a rounded saw
    assert 0 < 36_720 * LEFT**2 / flat - 10 - sum(parts) < 0.06 * sum(parts)
    assert ends(plan, "Draw the tang") == written(55.4 * flat * LEFT**5 / (17 * 5))
    assert ends(plan, "Forge the bevels") == written(121.0 * flat * LEFT**2 / (43 * (5 + 2) / 2))
    # the point goes from the wedge of 43 x 5 mm, 2 mm at the edge, to 4 x 2 mm, each side along a straight line
    point = solid(lambda x: 43 - 39 * x / 30, lambda x, s: 2 + (5 - 3 * x / 30 - 2) * s, 30)
    assert point == pytest.approx(12.8 * flat * LEFT**2, rel=0.005)
    # finished: a wedge of 42 x 4 mm to 0.6, 130 mm long, that runs out over 30 mm, and a tang of 16 x 4 x 100
    blade = solid(lambda _: 42.0, lambda _, s: 0.6 + 3.4 * s, 130)
    tip = solid(lambda x: 42 * (1 - x / 30), lambda x, s: (0.6 + 3.4 * s) * (1 - x / 30), 30)
    assert finished("chisel-knife") == pytest.approx(blade + tip + 16 * 4 * 100, rel=1e-3)


def test_a_double_edge_with_a_twisted_core() -> None:
    plan = load("twisted-core")
    # three pieces and two of 20 x 3 x 63, two and one saw cuts between them; two jackets of 12 x 12 x 103 and a cut
    cuts = 20 * 3 * (3 * 63 + 2 * 1.5) + 20 * 3 * (2 * 63 + 1.5) + 12 * 12 * (2 * 103 + 1.5)
    assert stock(plan) == pytest.approx(cuts, rel=0.005)  # bars are cut to whole millimetres
    stack = 20 * 15 * 63 * LEFT**3  # one heat sets the weld, two close it
    assert ends(plan, "Weld the whole length") == written(stack / (20.6 * 13.5))
    square = step(plan, "Draw the billet out square")
    core = stack * LEFT**square.heats
    assert ends(plan, "Draw the billet out square") == written(core / 12.96**2)
    # two heats twist it, two forge it square again, and 4 % is ground off its faces
    core *= LEFT**4 * 0.96
    assert ends(plan, "Forge the twist square again") == written(core / 12**2)
    assert begins(plan, "Set the bars") == written(min(core / 12**2, 103.0))
    # one heat sets them, three weld them, and one proves them: 12 x 0.97 x 0.88 = 10.24 mm, written as 10.2
    billet = 36 * 12 * min(core / 12**2, 103.0) * LEFT**5
    assert ends(plan, "Prove the weld") == written(billet / (34.92 * 10.24))
    billet -= 24.3 * 21.1 / 2 * 10.24  # the V
    assert begins(plan, "Close the notch and weld it") == written(billet / (34.92 * 10.24))
    # four heats of the end alone, two fifths of it; then 6 mm are ground back where it is half as wide
    billet = billet * (1 - 0.4 * (1 - LEFT**4)) - 6 * 34.92 * 10.24 / 2
    assert begins(plan, "Draw it out") == written(billet / (34.92 * 10.24))
    flat = 24.53 * 6
    drawn = billet * LEFT**4 / flat
    assert ends(plan, "Draw it out") == written(drawn)
    assert ends(plan, "Draw the tang") == written(begins(plan, "Draw the tang") * flat * LEFT**3 / (16 * 6))
    rest = drawn - begins(plan, "Draw the tang") - begins(plan, "Taper it towards the point")
    assert 0 < rest - 10 < 0.06 * drawn
    taper = begins(plan, "Taper it towards the point") * flat * LEFT**2
    assert ends(plan, "Taper it towards the point") == written(taper / (24.53 * 4.95))
    # a diamond of 31 x 4.95 mm, 2 mm at both edges, to 4 x 2 mm over 45 mm
    point = solid(lambda x: 31 - 27 * x / 45, lambda x, s: 2 + (4.95 - 2.95 * x / 45 - 2) * (1 - abs(2 * s - 1)), 45)
    assert point == pytest.approx(begins(plan, "Forge the point") * 24.53 * 4.95 * LEFT**2, rel=0.005)
    diamond = 31 * (4.95 + 2) / 2
    bevels = begins(plan, "Forge the bevels") * 24.53 * 4.95 * LEFT**2
    assert ends(plan, "Forge the bevels") == written(bevels / diamond)
    # 190 mm of blade, and what bars that are cut to whole millimetres have over
    assert ends(plan, "Forge the bevels") + 45 == pytest.approx(190.5, abs=0.5)
    # finished: 30 mm wide, 5 mm at the ridge and 0.65 of it where the point begins, 0.6 mm at both edges, a tang 15 x 5
    blade = solid(lambda _: 30.0, lambda x, s: 0.6 + (5 - 1.75 * x / 145 - 0.6) * (1 - abs(2 * s - 1)), 145)
    tip = solid(lambda x: 30 - 30 * x / 45, lambda x, s: (0.6 + (3.25 - 0.6) * (1 - abs(2 * s - 1))) * (1 - x / 45), 45)
    assert finished("twisted-core") == pytest.approx(blade + tip + 15 * 5 * 100, rel=1e-3)
