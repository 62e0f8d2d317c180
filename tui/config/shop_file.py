"""The shop file, `shop.toml` beside the settings: what was learned of the smith's own shop, or set by hand."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from plans.shop import FIRE_KEY, KEYS, FireAir, Shop, ShopKey
from plans.toml import TomlFaults, TomlTable, TomlText, changed, key_text, near_or_all, parse_toml, without
from tui.config.errors import UsageError
from tui.config.own_file import change_own_file, read_own_file

_LEARNED = "Learned"


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
    file = read_own_file(path)
    if file.trouble:
        return Shop(), [f"{file.trouble}; going by the warm model's own figures"]
    faults = TomlFaults(file.toml)
    table = TomlTable(faults, (), file.toml.values)
    names = (*KEYS, FIRE_KEY)
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
    return Shop(**figures, fire=fire), [str(fault) for fault in faults.found]


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
    file = read_own_file(path)
    if file.trouble:
        raise UsageError(f"{file.trouble}; mend it, or move it away, then keep the factors again")
    instead = " and ".join(f"{factor.key} = {factor.value:g}" for factor in factors)
    change_own_file(file, lambda toml: _with_factors(toml, factors), instead)


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
