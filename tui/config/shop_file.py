"""The shop file, `shop.toml` beside the settings: what was learned of the smith's own shop, or set by hand."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from datetime import datetime
from pathlib import Path
from re import MULTILINE, search
from typing import Final, NamedTuple

from plans.shop import FIRE_KEY, FUEL_KEY, KEYS, PRICE_KEY, FireAir, FuelRate, Shop, ShopKey
from plans.toml import (
    TomlFaults,
    TomlTable,
    TomlText,
    changed,
    key_text,
    near_or_all,
    nearest,
    parse_toml,
    shown,
    taken_out,
    without,
)
from tui.config.own_file import change_own_file, read_own_file

_LEARNED = "Learned"
FORGOTTEN: Final = "forgotten"
"""The table of rows that were forgotten."""
_MOMENT: Final = "cooling-factor = 2026-11-27T10:15:00+01:00"


class LearnedFactor(NamedTuple):
    """A factor that goes into the shop file."""

    key: str
    """Its key there."""
    value: float
    """1 is as the warm model ships."""
    spread: float | None
    """Its standard error; None where that is not known: one that stands there goes then, as it was of another value."""
    learned: str
    """When and from what, for the comment above it; one line."""


def read_shop(path: Path) -> tuple[Shop, list[str]]:
    """Read the shop file; it need not be there.

    Returns:
        the shop, and what is wrong with the file: each line says where, what, and what would be right
    """
    shop, _, wrong = read_shop_and_forgotten(path)
    return shop, wrong


def read_forgotten(path: Path) -> dict[str, datetime]:
    """By each row of what sittings teach that was forgotten, until when; what is wrong there, `read_shop` says."""
    return read_shop_and_forgotten(path)[1]


def read_shop_and_forgotten(path: Path) -> tuple[Shop, dict[str, datetime], list[str]]:
    """Read the whole shop file: the shop, by each forgotten row until when that is, and what is wrong with the file."""
    file = read_own_file(path)
    if file.trouble:
        return Shop(), {}, [f"{file.trouble}; going by the warm model's own figures"]
    faults = TomlFaults(file.toml)
    table = TomlTable(faults, (), file.toml.values)
    names = (*KEYS, FIRE_KEY, FUEL_KEY, PRICE_KEY, FORGOTTEN)
    for name in file.toml.values:
        if name not in names:
            faults.say(
                (name,), f"there is no {key_text((name,))} in a shop file", near_or_all(name, names, "there are")
            )
    found = {name: table.number(name, key.least, key.most, _right(key)) for name, key in KEYS.items()}
    figures = {
        KEYS[name].attribute: value
        for name, value in found.items()
        # A standard error says nothing of another factor than that which it stands beside.
        if value is not None and not ((factor := KEYS[name].spread_of) in file.toml.values and found[factor] is None)
    }
    fire = table.choice(FIRE_KEY, tuple(FireAir))
    forgotten = dict(_good_moments(table)) if FORGOTTEN in file.toml.values else {}
    return Shop(**figures, fire=fire, fuel=_fuel(table)), forgotten, [str(fault) for fault in faults.found]


def _fuel(table: TomlTable) -> FuelRate | None:
    if not {FUEL_KEY, PRICE_KEY} & table.values.keys():
        return None
    from tui.config.shop_fuel import fuel_of  # a shelf whose shop has none need not load it

    return fuel_of(table)


def _good_moments(top: TomlTable) -> Iterator[tuple[str, datetime]]:
    from plans.logbook.taught import names_a_row, row_names  # nothing is forgotten in most shops

    table = top.table(FORGOTTEN, f"write [{FORGOTTEN}], and below it {_MOMENT}")
    if table is None:
        return
    for name, value in table.values.items():
        if not names_a_row(name):
            near = nearest(name, row_names())
            hint = f"perhaps {near}" if near else "`heatbook log taught` has their names"
            table.shape(name, "is no row of what sittings teach", hint)
        elif not isinstance(value, datetime) or value.tzinfo is None:
            table.shape(name, f"is {shown(value)}", f"write a time with its offset, as {_MOMENT}")
        else:
            yield name, value


def _right(key: ShopKey) -> str:
    about = f"1 is {key.unit}" if key.spread_of is None else "leave the key out where it is not known"
    return f"write a number from {key.least:g} to {key.most:g}; {about}"


def keep_factors(path: Path, factors: Sequence[LearnedFactor]) -> None:
    """Write factors into the shop file, or in the place of those that stand there; all else stays.

    Args:
        path: of the shop file; its folder need not be there
        factors: those that were learned

    Raises:
        UsageError: what stands there is no TOML, or something else has a value's place.
        OSError: it can't be written; the file is as it was.
    """
    instead = " and ".join(f"{factor.key} = {factor.value:g}" for factor in factors)
    change_own_file(path, lambda toml: _with_factors(toml, factors), instead, "keep the factors again")


def forget(path: Path, row: str, key: str, moment: datetime) -> str:
    """Forget what sittings teach of a row until a moment, and the factor that was kept of it.

    A factor that the smith set by hand stays, as no sitting taught it.

    Args:
        path: of the shop file; its folder need not be there
        row: the id of the row
        key: of the factor in the shop file; empty where there is none
        moment: with its offset

    Returns:
        the factor that was set by hand and stays, as it stands there: "cooling_factor = 1.2"; empty where none does

    Raises:
        UsageError: what stands there is no TOML, or something else has a value's place.
        OSError: it can't be written; the file is as it was.
    """

    def forgotten(toml: TomlText) -> str:
        learned = _learned_above(toml.text, key)
        for name in [name for name, one in KEYS.items() if one.spread_of == key or name == key] if learned else ():
            toml = _read(toml, without(toml, name))
        toml = _read(toml, toml.text.replace(learned, "", 1))
        return changed(toml, (FORGOTTEN, row), moment.replace(microsecond=0))

    before = change_own_file(path, forgotten, f"{row} under [{FORGOTTEN}]")
    value = before.values.get(key)
    return "" if value is None or _learned_above(before.text, key) else f"{key} = {value}"


def _learned_above(text: str, key: str) -> str:
    """The line above a factor that says when it was learned, with its end; empty where the smith set it himself."""
    found = search(rf"^(# {_LEARNED} [^\n]*\n){key} *=", text, MULTILINE) if key else None
    return found[1] if found else ""


def recall(path: Path, row: str) -> None:
    """Have what sittings teach of a row count again; what is raised is as in `forget`."""
    change_own_file(path, lambda toml: taken_out(toml, (FORGOTTEN, row)), f"no {row} under [{FORGOTTEN}]")


def _with_factors(toml: TomlText, factors: Sequence[LearnedFactor]) -> str:
    for factor in factors:
        spread = next(name for name, key in KEYS.items() if key.spread_of == factor.key)
        # In the order of the declaration, a factor's standard error right below it.
        names = list(KEYS)
        above = next((name for name in reversed(names[: names.index(factor.key)]) if name in toml.values), "")
        toml = _read(toml, changed(toml, (factor.key,), _number(factor.value), f"{_LEARNED} {factor.learned}", above))
        if factor.spread is None:
            toml = _read(toml, without(toml, spread))
        else:
            toml = _read(toml, changed(toml, (spread,), _number(factor.spread), below=factor.key))
    return toml.text


def _read(toml: TomlText, text: str) -> TomlText:
    return parse_toml(text, toml.file)


def _number(value: float) -> float | int:
    """As a smith would write it: 1 rather than 1.0."""
    short = float(f"{value:g}")
    return int(short) if short.is_integer() else short
