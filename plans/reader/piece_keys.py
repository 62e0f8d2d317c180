"""The keys of a piece's file, which says what shall be made, and of the rack's, which says what one has."""

from __future__ import annotations

from typing import Final, NamedTuple

from plans.reader.declaring import ManyNested, Nested, key
from plans.reader.keys import MOST_HEATS
from plans.reader.value_types import Choice, Count, CrossSection, Line, Quantity, Range, Version
from plans.record import record
from plans.shapes import Line as BodyLine, Runout, Section
from plans.stock import Allowances
from plans.toml import TomlTable
from plans.units import Units

_LENGTH: Final = Quantity("length", Range(0.0005, 20.0, "no piece is shorter or longer"))
_ALLOWANCE: Final = Quantity("length", Range(0.0, 1.0, "no allowance is larger"))
_MASS: Final = Quantity("mass", Range(0.001, 100.0, "no handle is lighter or heavier"))
_SHARE: Final = Quantity("number", Range(0.0, 0.9, "more than that is no allowance"))
_SECTION: Final = CrossSection(Range(0.0002, 1.0, "no piece is thinner or wider"))
_NAME: Final = Line(60)
_STEEL: Final = Line(30, braces=False)
_USUAL: Final = Allowances()
_OF_OURS: Final = "common practice, no source"


class _SectionOrRunout(NamedTuple):
    """A cross-section, or a word for how a body runs out."""

    def read(self, table: TomlTable, key: str) -> Section | Runout | None:
        """The section, its sides in metres, or the word."""
        words = tuple(Runout)
        if table.values[key] in words:
            return table.choice(key, words)
        return _SECTION.read(table, key)

    def write(self, value: Section | Runout, units: Units) -> str:
        """The section with its unit, or the word."""
        return value.value if isinstance(value, Runout) else _SECTION.write(value, units)


@record(eq=False)
class BodyKeys:
    """One body of a piece, beginning where the one before it ends."""

    name: str = key(_NAME, '"blade"', default="", names=True)
    """What it is called, e.g. tang, blade, point."""
    section: Section = key(_SECTION, '"wedge 38 x 5 mm to 0.8 mm"', required=True)
    """Section where it begins."""
    length: float = key(_LENGTH, '"180 mm"', required=True)
    """Its length."""
    end: Section | Runout | None = key(_SectionOrRunout(), '"tip"', otherwise="it stays as it begins")
    """Section where it ends; or `tip`, `edge` or `point`: how it runs out to nothing."""
    line: BodyLine = key(
        Choice(tuple(BodyLine)), '"rounded"', default=BodyLine.STRAIGHT, otherwise="its sides run straight"
    )
    """The line along which its sides get there."""


@record(eq=False)
class AllowKeys:
    """What is lost between the bar and the finished piece."""

    grinding: float = key(_ALLOWANCE, '"0.5 mm"', default=_USUAL.grinding, otherwise=f"0.5 mm, {_OF_OURS}")
    """Ground off each face."""
    ends: float = key(_ALLOWANCE, '"5 mm"', default=_USUAL.ends, otherwise=f"5 mm, {_OF_OURS}")
    """Cut off each end of what was forged."""
    heats: int | None = key(Count(MOST_HEATS), "10", otherwise="as many as drawing the bar to its section takes")
    """How many heats it takes."""
    scale: float | None = key(_SHARE, '"2 %"', otherwise=f"2 % (1 to 3), {_OF_OURS}")
    """What each heat takes as scale, as a share of the steel."""
    spare: float = key(_SHARE, '"5 %"', default=_USUAL.spare, otherwise=f"5 %, {_OF_OURS}")
    """Left over on purpose, as a share of the bar."""
    stub: float = key(_ALLOWANCE, '"20 mm"', default=_USUAL.stub, otherwise="none")
    """Length of the bar that tongs, a tack or a handle hold, and that is cut off at last."""
    kerf: float = key(_ALLOWANCE, '"1.5 mm"', default=_USUAL.kerf, otherwise=f"1.5 mm, {_OF_OURS}")
    """Width of the saw cut."""


@record(eq=False)
class HandleKeys:
    """The handle that comes onto a piece."""

    mass: float = key(
        Quantity("mass", Range(0.001, 100.0, "no handle is lighter or heavier")), '"120 g"', required=True
    )
    """Its mass."""
    centre: float = key(_ALLOWANCE, '"60 mm"', required=True)
    """How far along from the beginning of the first body its own centre lies."""


@record(eq=False)
class PieceKeys:
    """A piece as it shall be when it is finished."""

    heatbook: int = key(Version(1), "1", required=True)
    """The version of the format."""
    title: str = key(_NAME, '"Carving knife"', required=True)
    """What it is called."""
    steel: str = key(_STEEL, '"1084"', default="", otherwise="any steel of the rack will do")
    """Grade of its steel."""
    body: tuple[TomlTable, ...] = key(ManyNested(BodyKeys, 20), "[[body]]", required=True, default=())
    """Its bodies in a row, from one end to the other."""
    allow: AllowKeys | None = key(Nested(AllowKeys), '{ grinding = "0.5 mm" }')
    """What is lost on the way."""
    handle: HandleKeys | None = key(Nested(HandleKeys), '{ mass = "120 g", centre = "60 mm" }')
    """The handle that comes onto it."""


@record(eq=False)
class RackBarKeys:
    """Bars of one kind on the rack."""

    steel: str = key(_STEEL, '"1084"', required=True, names=True)
    """Grade of the steel."""
    section: Section = key(_SECTION, '"25 x 25 mm"', required=True)
    """Their cross-section."""
    length: float = key(_LENGTH, '"1 m"', required=True)
    """Length of each."""
    pieces: int = key(Count(1000), "2", default=1, otherwise="one")
    """How many there are."""


@record(eq=False)
class RackKeys:
    """The rack: the bars that one has."""

    heatbook: int = key(Version(1), "1", required=True)
    """The version of the format."""
    bar: tuple[TomlTable, ...] = key(ManyNested(RackBarKeys, 500), "[[bar]]", required=True, default=())
    """The bars, kind by kind."""
