"""What a kept sitting tells of the shop, and keeping it."""

from __future__ import annotations

from collections.abc import Mapping
from pathlib import Path
from typing import Any

from plans.logbook.errors import LogbookError
from plans.logbook.kept_sitting import KeptSitting
from plans.logbook.lines.cooling import factor_text
from plans.logbook.logged_sitting import work_out
from tui.config.shop_file import keep_factor


def learned_of(kept: KeptSitting) -> Mapping[str, Any] | None:
    """What a kept sitting tells of the shop, as the log keeps it; worked out now where the log does not have it yet.

    Returns:
        the figures as the log keeps them; None where no probe on the work was heard outside the fire

    Raises:
        PlanError: its plan can't be read by this version.
    """
    if "learned" in kept.figures:
        found: Mapping[str, Any] | None = kept.figures["learned"]
        return found
    return work_out(kept.header, kept.log).figures["learned"]  # type: ignore[no-any-return]


def to_keep(kept: KeptSitting, learned: Mapping[str, Any] | None) -> Mapping[str, Any]:
    """Check that what was learned from a sitting may go into the shop file.

    Args:
        kept: the sitting
        learned: what it tells of the shop, by `learned_of`

    Returns:
        what was learned, with a cooling factor in it

    Raises:
        LogbookError: there is no cooling factor in it that a shop file may hold; the text says why.
    """
    name = kept.header.id
    if kept.header.rehearsal:
        raise LogbookError(f"sitting {name} is a rehearsal: what it tells is of the simulated forge, not of your shop")
    if learned is None:
        raise LogbookError(
            f"sitting {name} tells nothing of the shop: no probe on the work was heard outside the fire; "
            "put one on it, and run the sitting with --probe-on work"
        )
    if learned["cooling_factor"] is None:
        raise LogbookError(
            f"sitting {name} tells nothing of the shop: the work was not felt cooling for long enough, "
            "or not as anything cools on an anvil or in the air"
        )
    return learned


def keep(kept: KeptSitting, learned: Mapping[str, Any], path: Path) -> str:
    """Write the cooling factor that was learned into the shop file.

    Args:
        kept: the sitting that it was learned from
        learned: what it tells of the shop, by `to_keep`
        path: of the shop file

    Returns:
        a line that says where it was kept and what for

    Raises:
        UsageError, OSError: it can't be written; the file is as it was.
    """
    head = kept.header
    about = f"on {kept.ended:%Y-%m-%d} from sitting {head.id}: {factor_text(learned)}"
    keep_factor(path, learned["cooling_factor"], about)
    return f"kept in {path}: sittings go by the cooling factor {learned['cooling_factor']:.2f} from now on"
