"""The shop file, `shop.toml` beside the settings: what was learned of the smith's own shop, or set by hand."""

from __future__ import annotations

import sys
from pathlib import Path

from plans.shop import LEAST_FACTOR, MOST_FACTOR, Shop
from plans.text import printable
from tui.config.errors import UsageError
from tui.config.own_file import read_own_file, write_own_file

_KEY = "cooling_factor"
_LEARNED = "# Learned "


def read_shop(path: Path) -> tuple[Shop, list[str]]:
    """Read the shop file; it need not be there.

    Returns:
        the shop, and what is wrong with the file: each line says where, what, and what would be right
    """
    file = read_own_file(path)
    if file.trouble:
        return Shop(), [f"{file.trouble}; going by the warm model's own figures"]
    wrong = [
        file.said((name,), f"there is no {name} in a shop file", f"there is {_KEY}")
        for name in file.table
        if name != _KEY
    ]
    value = file.table.get(_KEY, 1.0)
    if isinstance(value, bool) or not isinstance(value, int | float) or not LEAST_FACTOR <= value <= MOST_FACTOR:
        right = f"write a number from {LEAST_FACTOR:g} to {MOST_FACTOR:g}; 1 is as the warm model ships"
        wrong.append(file.said((_KEY,), f"{_KEY} is {value!r}", right))
        return Shop(), wrong
    return Shop(float(value)), wrong


def shop_of(path: Path) -> Shop:
    """The shop, for a command without a screen: what is wrong with the file goes to standard error."""
    shop, wrong = read_shop(path)
    for line in wrong:
        print(f"heatbook: {printable(line)}", file=sys.stderr)
    return shop


def keep_factor(path: Path, factor: float, learned: str) -> None:
    """Write the cooling factor into the shop file, or in the place of the one that stands there; all else stays.

    Args:
        path: of the shop file; its folder need not be there
        factor: 1 is as the warm model ships
        learned: when and from what, for the comment above it; one line

    Raises:
        UsageError: what stands there is no TOML, or the value can't be told from the rest.
        OSError: it can't be written; the file is as it was.
    """
    file = read_own_file(path)
    if file.trouble:
        raise UsageError(f"{file.trouble}; mend it, or move it away, then keep the factor again")
    lines = file.text.splitlines()
    at = file.lines.get((_KEY,), 1) - 1
    if _KEY in file.table:
        del lines[at]
        while at > 0 and lines[at - 1].startswith(_LEARNED):
            at -= 1
            del lines[at]
    lines[at:at] = [f"{_LEARNED}{learned}", f"{_KEY} = {factor:g}"]
    write_own_file(file, lines, {**file.table, _KEY: float(f"{factor:g}")}, f"{_KEY} = {factor:g}")
