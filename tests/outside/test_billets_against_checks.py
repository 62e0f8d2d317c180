"""The billets' command line against arithmetic that was done elsewhere, and against common practice."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from tui.cli.main import main

Reckon = Callable[..., dict[str, Any]]


@pytest.mark.parametrize(("meeting", "layers"), [("unlike", 448), ("like", 385)])
def test_seven_pieces_cut_in_four_three_times(reckon: Reckon, meeting: str, layers: int) -> None:
    # Evaluated elsewhere: N k^n, and N' = k N - (k - 1) three times over.
    found = reckon(
        *("layers", "--pieces", "7", "--folds", "3", "--cut-in", "4", "--meeting", meeting, "--thickness", "40 mm")
    )
    assert found["layers"] == layers
    assert found["layer_mm"] == pytest.approx(40 / layers)


@pytest.mark.parametrize(
    ("pieces", "more", "layers", "between"),
    [
        ("7", (), 49, None),  # 13, 25, 49: an odd stack has one steel on both faces
        ("6", (), 41, None),  # 11, 21, 41: a fold lays a face on itself
        ("7", ("--cut-in", "4"), 385, None),
        ("6", ("--cut-in", "2"), 48, [41, 48]),  # laid as it was cut, or every other piece turned over
        ("7", ("--meeting", "unlike"), 56, None),
    ],
)
def test_which_faces_meet_where_nobody_says_so(
    reckon: Reckon, pieces: str, more: tuple[str, ...], layers: int, between: list[int] | None
) -> None:
    found = reckon("layers", "--pieces", pieces, "--folds", "3", *more)
    assert (found["layers"], found["about"]["layers"]["range"]) == (layers, between)


def test_layers_across_the_edge(reckon: Reckon) -> None:
    # 49 layers in a spine of 5 mm: an edge of a tenth of it has a tenth of them; of 56 single ones, or 28 double ones.
    blade = ("--spine", "5 mm", "--edge", "0.5 mm", "--bevel", "30 mm")
    found = reckon("layers", "--pieces", "7", "--folds", "3", *blade)
    assert found["edge_layers"] == pytest.approx(4.9)
    assert found["about"]["edge_layers"]["range"] == pytest.approx([2.8, 5.6])


def test_helix_of_a_twist(reckon: Reckon) -> None:
    # Evaluated elsewhere: tan a = pi d / p, sqrt(1 + (pi d / p)^2), for 12 mm and a pitch of 24 mm.
    found = reckon("twist", "--section", "round 12 mm", "--pitch", "24 mm", "--length", "120 mm")
    assert (found["angle_degrees"], found["stretch"]) == (
        pytest.approx(57.518, abs=1e-3),
        pytest.approx(1.8621, abs=1e-4),
    )
    assert found["turns"] == 5


def test_line_of_a_laminate(reckon: Reckon) -> None:
    # Evaluated elsewhere: x = H (tc - e) / (T - e).
    found = reckon("laminate", "--spine", "4 mm", "--edge", "0.3 mm", "--core", "1 mm", "--bevel", "30 mm")
    assert found["line_mm"] == pytest.approx(5.675676, abs=1e-3)


@pytest.mark.parametrize(
    ("off", "front", "back", "said"),
    [
        # 30 mm (1.5 mm + 2 off - 0.5 mm) / 3.5 mm to the front, and with off below 0 to the back.
        ("0.3 mm", 13.714286, 3.428571, "3.4 mm"),
        ("0.6 mm", 18.857143, -1.714286, "jacket at the edge"),
        ("1.1 mm", 27.428571, -10.285714, "jacket at the edge, then core up to 27.4 mm"),
    ],
)
def test_lines_of_a_core_off_the_middle(
    reckon: Reckon, capsys: pytest.CaptureFixture[str], off: str, front: float, back: float, said: str
) -> None:
    blade = ("laminate", "--spine", "4 mm", "--edge", "0.5 mm", "--core", "1.5 mm", "--bevel", "30 mm", "--off", off)
    found = reckon(*blade)
    assert found["answer"] == ["front_line_mm", "back_line_mm"]
    assert [found["front_line_mm"], found["back_line_mm"]] == pytest.approx([front, back], abs=1e-5)
    assert main(["reckon", *blade, "--brief"]) == 0
    assert said in capsys.readouterr().out


@pytest.mark.parametrize(
    ("parts", "shares", "borders"),
    [("12.7,25.4,12.7 mm", [0.25, 0.5, 0.25], [10, 30]), ("1/2, 1/2, 1/2 in", [1 / 3] * 3, [40 / 3, 80 / 3])],
)
def test_bars_side_by_side(reckon: Reckon, parts: str, shares: list[float], borders: list[float]) -> None:
    # Common practice, no source: equal bars give a core of a third, a core twice as wide a half.
    found = reckon("composite", "--parts", parts, "--face", "40 mm", "--ridge", "6 mm", "--edge", "0.8 mm")
    assert found["shares"] == pytest.approx(shares)
    assert found["borders_mm"] == pytest.approx(borders)
    low, high = found["about"]["core_mm"]["range"]
    assert low < found["core_mm"] == pytest.approx(high)


def test_bars_to_start_from(reckon: Reckon) -> None:
    # The same backwards: a core of half the face from bars of 1/2, 1 and 1/2 in.
    blade = ("--face", "40 mm", "--ridge", "6 mm", "--edge", "0.8 mm", "--billet", "2 in")
    assert reckon("composite", "--core", "20 mm", *blade)["bars_mm"] == pytest.approx([12.7, 25.4, 12.7])
    assert reckon("composite", "--jacket", "10 mm", *blade)["bars_mm"] == pytest.approx([12.7, 25.4, 12.7])
    both = reckon("composite", "--core", "20 mm", "--jacket", "10 mm", *blade[2:])
    assert both["bars_mm"] == pytest.approx([12.7, 25.4, 12.7]), "the face follows from both"


@pytest.mark.parametrize(("thick", "outside"), [("3/16 in", True), ("1/2 in", False)])
def test_closing_a_notch(reckon: Reckon, thick: str, outside: bool) -> None:
    # Common practice, no source: it costs 1/4 in at the tip; 3/16 in is too thin to close well, 1/2 in is easy.
    found = reckon("notch", "--section", f"2 in x {thick}", "--core", "5/8 in")
    assert found["grind_back_mm"] == pytest.approx(6.35)
    assert found["about"]["heats"]["outside"] is outside
