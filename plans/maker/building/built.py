"""A billet, as it is built: its pieces and moves, and where their figures come from."""

from __future__ import annotations

from plans.maker.heats import heats_for
from plans.maker.strand import Move, Piece, Strand
from plans.maker.why import Chosen, Concern, Why
from plans.making import Part
from plans.record import record
from plans.shapes import Section


@record(eq=False)
class Built:
    """What is welded together before it is drawn out."""

    strand: Strand
    """The pieces, and what is done with them until there is a billet."""
    billet: Section
    """Section of the billet."""
    whys: dict[str, Why]
    """Where the section of each bar comes from, by the name of its piece."""
    concerns: tuple[Concern, ...] = ()
    """What does not add up."""


@record(eq=False)
class Moves:
    """Moves that are gathered, with the heats that common practice has for each part."""

    moves: list[Move]
    """The moves so far."""

    @classmethod
    def none(cls) -> Moves:
        """No move yet."""
        return cls([])

    def cold(self, part: Part, **figures: object) -> None:
        """Add a move that is made cold; `figures` are attributes of `Move`."""
        self.moves.append(Move(part, **figures))  # type: ignore[arg-type]

    def hot(self, part: Part, heats: Chosen[int] | None = None, **figures: object) -> None:
        """Add a move that takes heats; `figures` are attributes of `Move`.

        Args:
            part: what part of the work it is
            heats: how many; None for what common practice has for the part
            figures: attributes of `Move`
        """
        chosen = heats_for(part) if heats is None else heats
        self.moves.append(Move(part, heats=chosen.value, heats_why=chosen.why, **figures))  # type: ignore[arg-type]


def height_of(pieces: tuple[Piece, ...]) -> float:
    """How high pieces come to that are stacked flat [m]; more than they are wide in a tower."""
    return sum(piece.count * piece.section.thickness for piece in pieces)


def together(pieces: tuple[Piece, ...], *, on_edge: bool) -> Section:
    """The section of pieces that lie together, with their whole area.

    Args:
        pieces: the pieces, in any order
        on_edge: whether they lie side by side; else they are stacked flat
    """
    area = sum(piece.count * piece.section.area for piece in pieces)
    along = sum(piece.count * (piece.section.width if on_edge else piece.section.thickness) for piece in pieces)
    return Section(max(along, area / along), min(along, area / along))
