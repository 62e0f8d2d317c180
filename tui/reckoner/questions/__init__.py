"""Everything that the reckoner can be asked, by groups.

Who answers is imported when something is asked, and not before.
"""

from __future__ import annotations

from typing import Final

from tui.reckoner.question import Question
from tui.reckoner.questions.bench import BEVELS, FORGED, HEATS, PROFILE, SQUEEZE
from tui.reckoner.questions.billets import COMPOSITE, LAMINATE, LAYERS, NOTCH, TWIST, WANDER
from tui.reckoner.questions.heat import COOLING, GLOW, SOAK, THERMOCOUPLE
from tui.reckoner.questions.steel import CARBON, SCALE, SKIN, STEEL, TEMPER
from tui.reckoner.questions.stock import DRAW, STOCK, WEIGHT

GROUPS: Final[dict[str, tuple[Question, ...]]] = {
    "heat": (COOLING, SOAK, GLOW, THERMOCOUPLE),
    "steel": (STEEL, CARBON, SCALE, SKIN, TEMPER),
    "stock": (WEIGHT, DRAW, STOCK, LAYERS, TWIST, COMPOSITE, LAMINATE, NOTCH, WANDER),
    "bench": (SQUEEZE, HEATS, FORGED, BEVELS, PROFILE),
}
"""The questions by what they are about, in the order in which they are shown."""

QUESTIONS: Final[dict[str, Question]] = {question.name: question for group in GROUPS.values() for question in group}
"""Every question by its name."""
