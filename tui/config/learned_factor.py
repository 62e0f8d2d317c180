"""What a kept sitting tells of the shop, and keeping it."""

from __future__ import annotations

from pathlib import Path

from plans.logbook import KeptSitting, Learned, LogbookError, work_out
from plans.logbook.lines import factor_text, named_factors
from tui.config.shop_file import LearnedFactor, keep_factors


def learned_of(kept: KeptSitting) -> Learned | None:
    """What a sitting tells of the shop; worked out now for one that was kept before air and contact were told apart.

    Returns:
        None where no probe on the work felt it outside the fire

    Raises:
        PlanError: its plan can't be read by this version.
    """
    figures = kept.figures
    learned = None if figures is None else figures.learned
    if figures is None or not figures.learning_done or (learned is not None and learned.contact is None):
        figures = work_out(kept.header, kept.log).figures
    return None if figures is None else figures.learned


def to_keep(kept: KeptSitting, learned: Learned | None) -> Learned:
    """What was learned, if there is a factor in it that a shop file may hold.

    Args:
        kept: the sitting
        learned: what it tells of the shop

    Raises:
        LogbookError: there is none; the text says why, and what to do.
    """
    name = kept.header.id
    if kept.header.rehearsal:
        raise LogbookError(f"sitting {name} is a rehearsal: what it tells is of the simulated forge, not of your shop")
    if learned is None:
        raise LogbookError(
            f"sitting {name} tells nothing of the shop: no probe on the work told how it cooled outside the "
            "fire: there was none, or it was too slow for what was struck; put a quicker one on it, --probe-on work"
        )
    if not learned.found:
        raise LogbookError(
            f"sitting {name} tells nothing of the shop: the work was not felt cooling for long enough, or not as "
            "anything cools on an anvil or in the air; one stay in the air tells something, two heats on the anvil"
        )
    return learned


def keep(kept: KeptSitting, learned: Learned, path: Path) -> str:
    """Write the factors that were learned into the shop file.

    Args:
        kept: the sitting that they were learned from
        learned: what it tells of the shop, by `to_keep`
        path: of the shop file

    Returns:
        a line that says where they were kept and what for

    Raises:
        UsageError, OSError: they can't be written; the file is as it was.
    """
    head = kept.header
    about = f"on {kept.ended:%Y-%m-%d} from sitting {head.id}"
    named = dict(zip(learned.found, named_factors(learned), strict=True))
    keep_factors(
        path,
        [
            LearnedFactor(key, factor.value, factor.spread, f"{about}: {name} {factor_text(factor)}")
            for key, (name, factor) in named.items()
            if factor.value is not None
        ],
    )
    said = " and ".join(f"the {name} {factor.value:.2f}" for name, factor in named.values())
    return f"kept in {path}: sittings go by {said} from now on"
