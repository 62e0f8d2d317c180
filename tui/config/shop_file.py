"""The shop file, `shop.toml` beside the settings: what was learned of the smith's own shop, or set by hand."""

from __future__ import annotations

from pathlib import Path

from plans.shop import LEAST_FACTOR, MOST_FACTOR, Shop
from plans.toml import TomlFaults, TomlTable, key_text
from tui.config.errors import UsageError
from tui.config.own_file import read_own_file, set_in_own_file

_KEY = "cooling_factor"
_LEARNED = "Learned"


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
    for name in file.toml.values:
        if name != _KEY:
            faults.say((name,), f"there is no {key_text((name,))} in a shop file", f"there is {_KEY}")
    right = f"write a number from {LEAST_FACTOR:g} to {MOST_FACTOR:g}; 1 is as the warm model ships"
    factor = table.number(_KEY, LEAST_FACTOR, MOST_FACTOR, right)
    return Shop() if factor is None else Shop(factor), [str(fault) for fault in faults.found]


def keep_factor(path: Path, factor: float, learned: str) -> None:
    """Write the cooling factor into the shop file, or in the place of the one that stands there; all else stays.

    Args:
        path: of the shop file; its folder need not be there
        factor: 1 is as the warm model ships
        learned: when and from what, for the comment above it; one line

    Raises:
        UsageError: what stands there is no TOML, or something else has the value's place.
        OSError: it can't be written; the file is as it was.
    """
    file = read_own_file(path)
    if file.trouble:
        raise UsageError(f"{file.trouble}; mend it, or move it away, then keep the factor again")
    value = float(f"{factor:g}")
    set_in_own_file(
        file, (_KEY,), int(value) if value.is_integer() else value, f"{_KEY} = {factor:g}", f"{_LEARNED} {learned}"
    )
