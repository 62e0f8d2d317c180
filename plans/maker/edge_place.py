"""Where in the thickness of a stack its edge lies, and where its hard steel: the edge has to be of the one."""

from __future__ import annotations

from typing import Final

from plans.maker.settled import Settled
from plans.maker.strand import Piece
from plans.making import Build, What

FLAT_FACED: Final = frozenset({What.CHISEL_EDGED, What.DRAWKNIFE})
"""What is ground from one face alone, so that its edge lies in the other."""


def edge_place(of: Settled) -> tuple[float, float]:
    """From where to where the edge lies in the thickness, as shares from the face that stays flat.

    Args:
        of: what shall be made
    """
    edge = of.edge / of.thickness
    return (0.0, edge) if of.what in FLAT_FACED else (0.5 - edge / 2, 0.5 + edge / 2)


def hard_place(of: Settled, pieces: tuple[Piece, ...]) -> tuple[float, float] | None:
    """From where to where the edge's steel lies in the thickness; None where it is not stacked flat with another.

    Args:
        of: what shall be made
        pieces: of its stack
    """
    if of.build not in (Build.LAID_EDGE, Build.LAMINATE):
        return None
    total = sum(piece.count * piece.section.thickness for piece in pieces)
    hard = next(piece.section.thickness for piece in pieces if piece.name in ("edge", "core")) / total
    return (0.0, hard) if of.build is Build.LAID_EDGE else (0.5 - hard / 2, 0.5 + hard / 2)
