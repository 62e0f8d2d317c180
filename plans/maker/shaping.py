"""From the billet to the forged piece: drawing out, tang, taper, point and bevels."""

from __future__ import annotations

from typing import Final

from plans.maker.ends import ends_cut
from plans.maker.finished import Forms
from plans.maker.heats import heats_for, heats_to_draw
from plans.maker.settled import EDGED, Settled
from plans.maker.strand import Move
from plans.maker.why import Chosen
from plans.making import Part, What
from plans.shapes import Section
from plans.stock import Allowances, Loss, LossKind

ENDS: Final = Allowances().ends
SPARE: Final = Allowances().spare


def shaping(of: Settled, forms: Forms, billet: Section) -> tuple[Move, ...]:
    """The moves from billet to forged piece: what is done with a billet of a section until the piece is forged.

    Args:
        of: what shall be made
        forms: the sections that it goes through
        billet: section of the billet
    """
    moves: list[Move] = []

    def add(part: Part, chosen: Chosen[int], **figures: object) -> None:
        moves.append(Move(part, heats=chosen.value, heats_why=chosen.why, **figures))  # type: ignore[arg-type]

    forged = forms.body + forms.point + forms.tang * (2 if of.what is What.DRAWKNIFE else 1)
    ends = Loss(LossKind.ENDS, ends_cut(of) * ENDS * forms.bar.area)
    spare = Loss(LossKind.SPARE, SPARE * forged)
    add(Part.DRAW, heats_to_draw(of, billet, forms.bar), reach=forms.bar, cuts=(ends, spare))
    if of.is_tanged and of.has(Part.TANG):
        for part in (Part.TANG, Part.SECOND_TANG) if of.what is What.DRAWKNIFE else (Part.TANG,):
            chosen = heats_to_draw(of, forms.bar, forms.tang_section, more=1, least=2)
            before = forms.tang / of.scale.left(chosen.value)[0]
            add(part, chosen, reach=forms.tang_section, apart=before)
    if forms.tip is not None:
        # the thin end is drawn furthest, and the heats are for it
        add(Part.TAPER, heats_to_draw(of, forms.bar, forms.tip, least=2), reach=forms.tapered)
    if forms.point:
        chosen = heats_for(Part.POINT)
        add(Part.POINT, chosen, apart=forms.point / of.scale.left(chosen.value)[0])
    if of.what in EDGED and of.has(Part.BEVELS) and forms.forged != forms.tapered:
        add(Part.BEVELS, heats_to_draw(of, forms.tapered, forms.forged, more=1, least=2), reach=forms.forged)
    return tuple(moves)
