"""What a heat takes as scale in this shop, and how its work spreads, as its logbook tells."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from typing import TYPE_CHECKING

from tui.config.folders import user_folders

if TYPE_CHECKING:
    from plans.logbook import KeptSitting, Logbook, ShopLearned
    from plans.reckoned import Reckoned


@lru_cache(maxsize=1)
def losses_learned() -> tuple[ShopLearned | None, ShopLearned | None]:
    """Loss to scale a heat, and how much wider work comes out than planned, by all sittings that are finished.

    Looked up once in a run of the program. Of a file only those are read whole in which anything was measured.

    Returns:
        both; each None where too little was measured, or the logbook can't be read
    """
    places = user_folders()
    if not places.logbook.exists():
        return None, None
    from plans.logbook import Logbook, LogbookError, loss_learned, lost_in, spread_in, spread_learned

    logbook = Logbook(places.logbook)
    try:
        kept = list(_measured(logbook))
    except LogbookError:
        return None, None
    finally:
        logbook.close()
    return (
        loss_learned(one for sitting in kept for one in lost_in(sitting)),
        spread_learned(one for sitting in kept for one in spread_in(sitting)),
    )


def scale_learned() -> Reckoned | None:
    """Share of the steel that a heat takes as scale in this shop, with its range; None where too little tells of it."""
    from plans.logbook import as_reckoned

    loss, _ = losses_learned()
    return None if loss is None else as_reckoned(loss)


def _measured(logbook: Logbook) -> Iterator[KeptSitting]:
    """The finished sittings in which something was measured by hand, in them or later."""
    from plans.logbook import LogbookError, Progress

    for summary in logbook.summaries():
        if summary.state is not Progress.FINISHED or summary.rehearsal or not logbook.was_measured(summary.id):
            continue
        try:
            yield logbook.load(summary.id)
        except LogbookError:
            continue  # `heatbook log` says what is wrong with it
