"""Hands-free: what may end a phase by itself."""

from __future__ import annotations

from enum import StrEnum

from plans.record import record


class HandsFree(StrEnum):
    """Who may end what. The smith's word always may, and takes back whatever ended by itself."""

    ALL = "all"
    """A probe on the work tells when it goes in and comes out; without one, a time of grace after a call may."""
    THERMAL = "thermal"
    """Only the soak begins by itself, when the skin is at heat."""
    NEVER = "never"
    """Nothing: the calls tell, the smith decides."""


@record
class Hands:
    """What may begin or end by itself, as it is set."""

    free: HandsFree = HandsFree.THERMAL
    """Who may end what."""
    grace: float | None = None
    """How long after a prompt the next phase begins, with `ALL` and no probe on the work [s]; None for never."""
    asks: bool = False
    """Whether a word that can hardly be meant is asked about before it is taken. What was recorded was so."""
