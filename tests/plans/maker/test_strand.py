"""Strands of steel: lengths backwards from what comes out, and forward again, by arithmetic that stands beside."""

from __future__ import annotations

import pytest

from plans.maker.strand import Move, Piece, Strand, run
from plans.making import Part
from plans.shapes import Section
from plans.stock import Loss, LossKind

SQUARE = Section(0.010, 0.010)
FLAT = Section(0.020, 0.004)


def test_a_bar_that_is_drawn_out() -> None:
    # 80,000 mm3 shall come out; each of two heats leaves 98 %: 80,000 / 0.9604 = 83,298.6 mm3, 832.986 mm of 10 x 10.
    strand = Strand((Piece("bar", "1084", SQUARE),), SQUARE, (Move(Part.DRAW, FLAT, heats=2),))
    done = run(strand, 80_000e-9, lambda length: length)
    assert done.cuts[0].length == pytest.approx(0.832986, abs=1e-6)
    assert done.stages[0].reach_length == pytest.approx(1.0)  # 80,000 / (20 x 4)
    (loss,) = done.all_losses
    assert loss.kind is LossKind.SCALE
    assert loss.volume == pytest.approx(3_298.6e-9, abs=0.1e-9)


def test_what_is_cut_off_and_set_apart() -> None:
    # In order: 40,000 out + 10,000 set apart = 50,000; + 5,000 cut off = 55,000; / 0.98 = 56,122.4 mm3.
    cut = Loss(LossKind.ENDS, 5_000e-9)
    moves = (Move(Part.DRAW, FLAT, heats=1, cuts=(cut,)), Move(Part.TANG, SQUARE, heats=2, apart=10_000e-9))
    done = run(Strand((Piece("bar", "1084", SQUARE),), SQUARE, moves), 40_000e-9, lambda length: length)
    assert done.cuts[0].length == pytest.approx(0.561224, abs=1e-6)
    tang = done.stages[1]
    assert tang.length == pytest.approx(0.125)  # 10,000 / 80
    assert tang.reach_length == pytest.approx(0.09604)  # 10,000 x 0.9604 / 100
    assert done.out == pytest.approx(40_000e-9)
    assert done.apart == pytest.approx(9_604e-9)


def test_pieces_cut_from_a_bar_that_is_made_itself() -> None:
    # Two cores of 10 x 10 x L between two jackets of 10 x 10 x L: 4 x 100 x L = 40,000 mm3, so L = 100 mm. The cores'
    # bar: 2 x 100 + 1.5 of saw cut = 201.5 mm of 10 x 10, from a stack of 20 x 20: 50.375 mm.
    stack = Section(0.020, 0.020)
    core = Strand((Piece("layers", "1084", stack),), stack, (Move(Part.SQUARE, SQUARE),))
    pieces = (Piece("jackets", "1084", SQUARE, 2), Piece("cores", "", SQUARE, 2, core))
    done = run(Strand(pieces, Section(0.040, 0.010), ()), 40_000e-9, lambda length: length)
    assert [(cut.piece.name, cut.length) for cut in done.all_cuts] == [
        ("layers", pytest.approx(0.050375)),
        ("jackets", pytest.approx(0.2015)),
    ]
    assert sum(loss.volume for loss in done.all_losses) == pytest.approx(2 * 150e-9)  # two saw cuts of 1.5 x 100 mm2


def test_bars_rounded_up_leave_more_and_lose_nothing() -> None:
    strand = Strand((Piece("bar", "1084", SQUARE),), SQUARE, (Move(Part.DRAW, FLAT, heats=2),))
    done = run(strand, 80_000e-9, lambda length: max(length, 0.9))
    assert done.out == pytest.approx(0.9 * 100e-6 * 0.9604)
    assert done.out + sum(loss.volume for loss in done.all_losses) == pytest.approx(90_000e-9)
