"""Fields that several questions share, and how a field of each kind is made."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any, Final

from plans.units import Shown, Units
from tui.reckoner import typed
from tui.reckoner.question import Field

if TYPE_CHECKING:
    from plans.blows import StruckBy
    from plans.reckoned import Reckoned

_TEMPERATURE = typed.quantity("temperature")
_TIME = typed.quantity("time")
_LENGTH = typed.quantity("length")
_NUMBER = typed.quantity("number")
_CONVECTION = typed.quantity("convection")


def either(metric: str, inch: str) -> Shown:
    """A text with figures as people in metric units would give them, and as people in inches and degF would."""
    return lambda units: inch if units is Units.INCH else metric


def temperature(name: str, about: Shown, example: Shown, *, needed: bool = False) -> Field:
    """A field for a temperature, read to kelvin."""
    return Field(name, about, example, _TEMPERATURE, "TEMPERATURE", needed)


def time(name: str, about: str, example: str, *, needed: bool = False) -> Field:
    """A field for a time, read to seconds."""
    return Field(name, about, example, _TIME, "TIME", needed)


def length(name: str, about: Shown, example: Shown, *, needed: bool = False) -> Field:
    """A field for a length, read to metres."""
    return Field(name, about, example, _LENGTH, "LENGTH", needed)


def lengths(name: str, about: Shown, example: Shown, *, needed: bool = False) -> Field:
    """A field for several lengths with commas between them, read to metres."""
    return Field(name, about, example, typed.lengths, "LENGTHS", needed)


def number(name: str, about: Shown, example: str, *, needed: bool = False) -> Field:
    """A field for a number or a share: "0.8", "95 %"."""
    return Field(name, about, example, _NUMBER, "NUMBER", needed)


def convection(usual: str, example: str) -> Field:
    """A field for a coefficient of convection, read to W/(m2 K).

    Args:
        usual: what is taken without it
        example: a text as one would type it
    """
    return Field("convection", f"heat transfer by convection ({usual})", example, _CONVECTION, "CONVECTION")


def given(answers: Mapping[str, Any], **names: str) -> dict[str, Any]:
    """Those of a function's optional arguments for which something was given.

    Args:
        answers: what was given, by the names of the fields
        names: the name of the field for each argument
    """
    return {argument: answers[name] for argument, name in names.items() if name in answers}


def together(answers: Mapping[str, Any], *names: str) -> bool:
    """Whether fields that go together were given.

    Args:
        answers: what was given, by the names of the fields
        names: of the fields that go together

    Raises:
        ReckonError: some were given and some were not; it names the first that is missing.
    """
    from plans.reckoner import ReckonError

    there = [name for name in names if name in answers]
    if there and len(there) < len(names):
        missing = next(name for name in names if name not in answers)
        raise ReckonError(missing, f"it is missing; it goes with {' and '.join(there)}")
    return bool(there)


def struck_by(answers: Mapping[str, Any]) -> StruckBy:
    """What the work is struck with, in the field "struck-by"; a hand hammer where nothing was given.

    Raises:
        ReckonError: nothing is called so.
    """
    from plans.blows import StruckBy
    from plans.reckoner import ReckonError
    from plans.text import clean

    said = answers.get("struck-by", StruckBy.HAND.value)
    try:
        return StruckBy(said)
    except ValueError:
        raise ReckonError("struck-by", f'"{clean(said)}": say hand hammer, power hammer or press') from None


def reduction(answers: Mapping[str, Any]) -> Reckoned:
    """What a heat takes off, in the field "reduction": as given, as the logbook tells, or as is usual.

    Raises:
        ReckonError: nothing is called as what the work is struck with.
    """
    from plans.press import usual_reduction
    from plans.reckoned import Reckoned
    from tui.config import reduction_learned

    if "reduction" in answers:
        return Reckoned(answers["reduction"], "arithmetic", "of the area, as given", "")
    by = struck_by(answers)
    return reduction_learned(by) or usual_reduction(by)


WARM: Final = either("20 degC", "68 degF")
"""An example of how warm a shop is."""
SECTION: Final = Field(
    "section", "cross-section of the bar", either("25 x 10 mm", "1 x 3/8 in"), typed.section, "SECTION", needed=True
)
"""The section of a bar."""
EMISSIVITY: Final = number("emissivity", "of its skin (0.8, with the spread of scaled steel)", "0.8")
"""The emissivity of a skin."""
CONTENT: Final = "carbon content, per cent of the mass"
"""What a content of carbon is."""
CARBON_CONTENT: Final = Field("carbon", CONTENT, "0.8", typed.mass_percent, "PERCENT")
"""The content of carbon."""
AT: Final = temperature("at", "temperature that it is held at", either("1200 degC", "2200 degF"), needed=True)
"""The temperature of a hold."""
FOR: Final = time("for", "how long it is held there", "10 min", needed=True)
"""The time of a hold."""
