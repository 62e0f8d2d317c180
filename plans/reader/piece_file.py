"""A piece's file, TOML that says what shall be made, and the rack's, that says what one has.

heatbook = 1
title = "Carving knife"
steel = "1084"

[[body]]
name = "blade"
section = "wedge 30 x 4 mm to 0.6 mm"
length = "150 mm"

[[body]]
name = "point"
section = "wedge 30 x 4 mm to 0.6 mm"
length = "40 mm"
end = "tip"

[allow]
grinding = "0.5 mm"
heats = 8
"""

from __future__ import annotations

from pathlib import Path
from typing import Final

from plans.errors import Fault, FaultKind, PlanError
from plans.reader.declaring import Keys, read_keys
from plans.reader.piece_keys import AllowKeys, BodyKeys, PieceKeys, RackBarKeys, RackKeys
from plans.record import record
from plans.shapes import Blade, Body, Handle
from plans.stock import USUAL_SCALE, Allowances, RackBar, ScaleLoss
from plans.toml import TomlError, TomlFaults, TomlTable, TomlText, read_toml

PIECES: Final = Path(__file__).parent.parent / "pieces"
"""The pieces that ship."""
MOST_BYTES: Final = 100_000
"""A larger file is none that a smith has written."""


@record
class Piece:
    """What shall be made."""

    title: str
    """What it is called."""
    steel: str
    """Grade of its steel; empty for any."""
    shape: Blade
    """Its bodies."""
    allowances: Allowances
    """What is lost on the way."""
    heats_said: bool
    """Whether its file says how many heats it takes; else they follow from the bar."""
    handle: Handle | None = None
    """The handle that comes onto it; None where its file tells of none."""


def find_piece(name: str) -> Piece | None:
    """The piece of that name that ships, or what the file at that path says shall be made; None where there is none.

    Args:
        name: a piece's name, or the path of a file

    Raises:
        PlanError: there is one, but it can't be used; it holds every fault that was found.
    """
    for path in (Path(name), *(one for one in PIECES.glob("*.toml") if one.stem == name)):
        try:
            toml = read_toml(path, MOST_BYTES)
        except TomlError:
            continue
        if "body" in toml.values:
            return piece_of(toml)
        if "step" not in toml.values:
            what, hint = (
                "there is neither a [[body]] nor a [[step]] in it",
                "write the bodies of a piece, or the steps of a plan",
            )
            raise PlanError([Fault(toml.file, None, "", "", what, hint, FaultKind.FILE)])
    return None


def piece_of(toml: TomlText) -> Piece:
    """What a TOML text says that shall be made.

    Raises:
        PlanError: it can't be used; it holds every fault that was found.
    """
    keys, faults = _keys(toml, PieceKeys, "body")
    bodies = [_body(table) for table in keys.body]
    if faults.found:
        raise PlanError(faults.found)
    shape = Blade(tuple(body for body in bodies if body is not None))
    allow = keys.allow or AllowKeys()
    usual = Allowances()
    scale = USUAL_SCALE if allow.scale is None else ScaleLoss(allow.scale, allow.scale, allow.scale)
    allowances = Allowances(
        allow.grinding, allow.ends, allow.heats or usual.heats, scale, allow.spare, allow.stub, allow.kerf
    )
    handle = None if keys.handle is None else Handle(keys.handle.mass, keys.handle.centre)
    return Piece(keys.title, keys.steel, shape, allowances, allow.heats is not None, handle)


def piece_text(name: str) -> str | None:
    """The text of the piece of that name that ships, to be copied; None where there is none."""
    path = PIECES / f"{name}.toml"
    return path.read_text(encoding="utf-8") if path in PIECES.glob("*.toml") else None


def read_rack(path: Path) -> tuple[RackBar, ...]:
    """Read what the rack holds.

    Raises:
        PlanError: the file can't be read or used; it holds every fault that was found.
    """
    keys, faults = _keys(_toml(path), RackKeys, "bar")
    bars = [read_keys(table, RackBarKeys) for table in keys.bar]
    if faults.found:
        raise PlanError(faults.found)
    return tuple(RackBar(bar.steel, bar.section, bar.length, bar.pieces) for bar in bars)


def _toml(path: Path) -> TomlText:
    try:
        return read_toml(path, MOST_BYTES)
    except TomlError as error:
        raise PlanError([error.fault]) from None


def _keys(toml: TomlText, declared: type[Keys], many: str) -> tuple[Keys, TomlFaults]:
    if not toml.values:
        what, hint = "the file is empty", f"begin with heatbook = 1 and a [[{many}]]"
        raise PlanError([Fault(toml.file, None, "", "", what, hint, FaultKind.FILE)])
    faults = TomlFaults(toml, (many,))
    return read_keys(TomlTable(faults, (), toml.values), declared), faults


def _body(table: TomlTable) -> Body | None:
    before = len(table.faults.found)
    keys = read_keys(table, BodyKeys)
    if len(table.faults.found) > before:
        return None
    try:
        return Body(keys.section, keys.length, keys.end, keys.line, keys.name)
    except ValueError as error:
        name, _, why = str(error).partition(": ")
        table.value(name, "is at fault", why)
        return None
