"""The kinds of phase: one row each, so that a new kind is declared in one place."""

from __future__ import annotations

from enum import Enum, StrEnum
from typing import Self

from plans.record import record


class Place(Enum):
    """Where the work is."""

    HAND = "hand"
    """Laid down or held, at the bench or beside the fire: nothing is timed."""
    FIRE = "fire"
    ANVIL = "anvil"
    AIR = "air"
    QUENCH = "quench"
    OVEN = "oven"
    BATH = "bath"


@record
class PhaseRow:
    """What is known of a kind of phase, whatever the plan."""

    place: Place
    """Where the work is meanwhile."""
    word: str
    """What to do, in one or two words, for the large letters: "heat"."""
    act: str
    """What the smith does to begin it, for the meaning of the space key: "in the fire"."""
    spoken: str
    """Said aloud as it begins; empty for a phase that waits for the smith."""
    report: str
    """Printed as it begins where there is no screen."""
    marks: tuple[str, str]
    """The row of marks that tells it by shape alone: in half blocks, and in ASCII."""
    over: str = ""
    """Said aloud when its set time is over; empty for the general words."""
    glows: bool = False
    """Whether the work may glow, so that the screen takes its colour."""


class PhaseKind(StrEnum):
    """What is going on with the work. `READY` waits for the smith between steps; no plan names it."""

    row: PhaseRow
    """What is known of this kind."""
    _value_: str

    def __new__(cls, name: str, row: PhaseRow | None = None) -> Self:
        """A kind by the name that plans and logs write, with its row."""
        assert row is not None, "only a member is made here; looking one up by its name is not"
        kind = str.__new__(cls, name)
        kind._value_ = name
        kind.row = row
        return kind

    READY = (
        "ready",
        PhaseRow(
            Place.HAND,
            word="ready",
            act="make ready",
            spoken="",
            report="ready, say next when it begins",
            marks=("▄       ", ".       "),
            glows=True,
        ),
    )
    FIRE = (
        "fire",
        PhaseRow(
            Place.FIRE,
            word="heat",
            act="in the fire",
            spoken="in the fire",
            report="in the fire",
            marks=("▄█▄ ", "/\\ "),
            glows=True,
        ),
    )
    SOAK = (
        "soak",
        PhaseRow(
            Place.FIRE,
            word="soak",
            act="skin is at heat",
            spoken="at heat, let it soak",
            report="the skin is at heat, soaking",
            marks=("▄", "="),
            glows=True,
        ),
    )
    STRIKE = (
        "strike",
        PhaseRow(
            Place.ANVIL,
            word="strike",
            act="out, strike",
            spoken="out, strike",
            report="out, strike",
            marks=("▀█▀ ", "\\/ "),
            glows=True,
        ),
    )
    AIR = (
        "air",
        PhaseRow(
            Place.AIR,
            word="air cool",
            act="out, in the air",
            spoken="out, let it cool",
            report="out, cooling in the air",
            marks=("▀   ▄   ", "'   .   "),
            glows=True,
        ),
    )
    QUENCH = (
        "quench",
        PhaseRow(
            Place.QUENCH,
            word="quench",
            act="in the quench",
            spoken="in the quench",
            report="in the quench",
            marks=("▀▀▄▄", "~"),
            over="out of the quench",
            glows=True,
        ),
    )
    OVEN = (
        "oven",
        PhaseRow(
            Place.OVEN,
            word="oven",
            act="in the oven",
            spoken="in the oven",
            report="in the oven",
            marks=("████    ", "[##]    "),
            over="out of the oven",
        ),
    )
    DIP = (
        "dip",
        PhaseRow(
            Place.BATH,
            word="dip",
            act="in the bath",
            spoken="in the bath",
            report="in the bath",
            marks=("█▄▄▄▄█  ", "|____|  "),
            over="out of the bath",
        ),
    )
    BENCH = (
        "bench",
        PhaseRow(
            Place.HAND,
            word="bench",
            act="to the bench",
            spoken="to the bench",
            report="at the bench",
            marks=("▀█▀▀▀█▀  ", "TT---TT  "),
        ),
    )


def _at(*places: Place) -> frozenset[PhaseKind]:
    return frozenset(kind for kind in PhaseKind if kind.row.place in places)


WARMING = _at(Place.FIRE)
"""Phases in which the work lies in the fire: fire and soak."""
FORGING = _at(Place.FIRE, Place.ANVIL)
"""Phases of a heat at the forge: the work is hot and goes on being worked; nobody leaves it there."""
HELD_HOT = _at(Place.FIRE, Place.OVEN)
"""Phases in which the work lies in the fire or the oven: after a pause nobody knows whether it does so still."""
OUTSIDE = _at(Place.ANVIL, Place.AIR)
"""Phases in which the work, out of the fire, gives its heat to air and anvil."""
HOLDING = _at(Place.QUENCH, Place.OVEN, Place.BATH)
"""Phases that last a set time, wherever the work's own warmth stands: quench, oven and dip."""
IDLE = _at(Place.HAND)
"""Phases in which no heat goes on: the smith is awaited, or works at the bench."""
IN_SOMETHING = _at(Place.FIRE, Place.OVEN, Place.BATH)
"""Phases that a trace shades: the work lies in the fire, the oven or the bath."""
STEADY = _at(Place.HAND, Place.OVEN, Place.BATH)
"""Phases in which the work's warmth changes so slowly that nothing hangs on half a second."""
