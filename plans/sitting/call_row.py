"""What is known of a call to the smith, whatever the sitting: a row of the table of calls."""

from __future__ import annotations

from enum import Enum

from plans.record import record
from plans.sitting.saying import Kind


class Role(Enum):
    """What a call wants, and how long it holds."""

    PROMPT = "prompt"
    """It is time for the next thing; holds until the phase ends."""
    ALARM = "alarm"
    """Something goes wrong now; holds until it is eased or the phase ends."""
    STATE = "state"
    """Something stands otherwise than usual, and the hand has nothing to do; holds until it is over, in every phase."""
    SPELL = "spell"
    """Something stands otherwise than usual, and the hand has nothing to do; holds until it is over or the phase ends.
    """
    PASSING = "passing"
    """Tells what was, and holds no longer."""


class Shape(Enum):
    """The mark of a call in a drawing, told apart by shape as far as what is to be done differs."""

    DIAMOND = "diamond"
    """A square on its point."""
    DOWN = "down"
    """A triangle that points down."""
    UP = "up"
    """A triangle that points up."""
    SQUARE = "square"
    """A square on its side."""
    WAVE = "wave"
    """A wavy line."""
    ARROW = "arrow"
    """An arrow that points down."""
    CROSS = "cross"
    """Two strokes from corner to corner."""
    PLUS = "plus"
    """An upright and a level stroke."""


@record
class CallRow:
    """What is known of a call, whatever the sitting."""

    role: Role
    """What it wants of the smith."""
    advice: str
    """What the smith is to make of it, in a few words after its name."""
    spoken: str
    """Said aloud when it comes."""
    kind: Kind
    """What that sentence is about: a newer one of the same kind takes the place of one that still waits."""
    bell: tuple[float, ...]
    """When the bell rings after it [s]. Prompts ring twice, slowly; alarms quickly and more often."""
    sign: str
    """Its mark on a curve in the terminal: one character."""
    shape: Shape
    """Its mark in a drawing."""
    marks: tuple[str, str]
    """The row of marks that tells it by shape alone: in half blocks, and in ASCII."""
    rank: int = 0
    """How urgent it is among the calls that hold: the greater goes first."""
    eased: str = ""
    """Said aloud when what it was about is over by itself; empty for nothing."""
