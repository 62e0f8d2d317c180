"""The files that say what shall be made and what one has: read whole, or refused with the line and what to do."""

from __future__ import annotations

from pathlib import Path

import pytest

from plans.errors import PlanError
from plans.reader.piece_file import PIECES, find_piece, piece_of, read_rack
from plans.shapes import Blade, Body, Handle, Line, Runout, Section
from plans.stock import USUAL_SCALE, Allowances, RackBar, ScaleLoss
from plans.toml import parse_toml

WHOLE = """
heatbook = 1
title = "Chisel"
steel = "O1"

[[body]]
name = "shank"
section = "round 1/2 in"
length = "4 in"
end = "12 x 6 mm"
line = "hollow"

[[body]]
section = "20 x 6 mm"
length = "80 mm"
end = "edge"

[allow]
grinding = "0.3 mm"
ends = "4 mm"
heats = 7
scale = "1.5 %"
spare = "10 %"
stub = "20 mm"
kerf = "1 mm"

[handle]
mass = "80 g"
centre = "2 in"
"""


def test_every_key_is_read() -> None:
    piece = piece_of(parse_toml(WHOLE, "chisel.toml"))
    assert (piece.title, piece.steel, piece.heats_said) == ("Chisel", "O1", True)
    shank = Body(Section.round(0.0127), 0.1016, Section(0.012, 0.006), Line.HOLLOW, "shank")
    assert piece.shape == Blade((shank, Body(Section(0.020, 0.006), 0.080, Runout.EDGE)))
    scale = ScaleLoss(0.015, 0.015, 0.015)
    assert piece.allowances == Allowances(0.0003, 0.004, 7, scale, 0.10, 0.020, 0.001)
    assert piece.handle == Handle(0.08, 0.0508)


def test_what_a_piece_leaves_out_is_as_usual() -> None:
    text = 'heatbook = 1\ntitle = "Bar"\n[[body]]\nsection = "20 x 6 mm"\nlength = "80 mm"\n'
    piece = piece_of(parse_toml(text, "bar.toml"))
    assert (piece.steel, piece.heats_said) == ("", False)
    assert piece.allowances == Allowances()
    assert piece.allowances.scale == USUAL_SCALE


@pytest.mark.parametrize(
    ("before", "after", "line", "said"),
    [
        ('section = "20 x 6 mm"', 'section = "20 x 6"', 14, "body 2"),
        ('end = "edge"', 'end = "egde"', 16, "end"),
        ('length = "80 mm"', 'length = "80 m"', 15, "beyond sense"),
        ('line = "hollow"', 'line = "hallow"', 11, "perhaps 'hollow'"),
        ("heats = 7", "heats = 0", 21, "heats"),
        ('spare = "10 %"', 'spare = "100 %"', 23, "beyond sense"),
        ('kerf = "1 mm"', 'cerf = "1 mm"', 25, "kerf"),
        ("heatbook = 1", "heatbook = 2", 2, "heatbook = 1"),
        ('length = "80 mm"\nend = "edge"', 'length = "80 mm"\nline = "rounded"', 16, "give it an end"),
    ],
)
def test_what_is_wrong_is_said_with_its_line(before: str, after: str, line: int, said: str) -> None:
    assert before in WHOLE
    with pytest.raises(PlanError) as refused:
        piece_of(parse_toml(WHOLE.replace(before, after), "chisel.toml"))
    assert f"chisel.toml:{line}: " in str(refused.value)
    assert said in str(refused.value)


def test_pieces_that_ship_are_found_by_name_and_others_by_path(tmp_path: Path) -> None:
    names = [path.stem for path in PIECES.glob("*.toml")]
    assert "carving-knife" in names
    assert all(find_piece(name) is not None for name in names)
    assert find_piece("kitchen-billet") is None
    path = tmp_path / "chisel.toml"
    path.write_text(WHOLE)
    assert find_piece(str(path)) == piece_of(parse_toml(WHOLE, "chisel.toml"))


def test_a_rack_is_read_or_refused(tmp_path: Path) -> None:
    path = tmp_path / "rack.toml"
    path.write_text('heatbook = 1\n[[bar]]\nsteel = "1084"\nsection = "1 x 1/4 in"\nlength = "2 m"\npieces = 3\n')
    (bar,) = read_rack(path)
    assert bar == RackBar("1084", Section(0.0254, 0.00635), 2.0, 3)
    path.write_text('heatbook = 1\n[[bar]]\nsteel = "1084"\nsection = "1 x 1/4 in"\n')
    with pytest.raises(PlanError, match=r'rack\.toml:2: bar 1 "1084": length is missing'):
        read_rack(path)
    for text in ("", "heatbook = 1\n", "bar = 3"):
        path.write_text(text)
        with pytest.raises(PlanError):
            read_rack(path)
    with pytest.raises(PlanError, match=r"none\.toml: "):
        read_rack(tmp_path / "none.toml")
