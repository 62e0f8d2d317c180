"""What the logbook teaches of this shop, for whoever reckons: what a heat takes off, and what goes to scale."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from tui.config.folders import user_folders

if TYPE_CHECKING:
    from plans.blows import StruckBy
    from plans.logbook.taught import Evidence, Forgotten
    from plans.reckoned import Reckoned


def reduction_learned(by: StruckBy) -> Reckoned | None:
    """Share of the area that a heat takes off, by all sittings whose plans drew a bar from section to section.

    What was forgotten of them does not count. The logbook is read once in a run of the program.

    Args:
        by: what the work was struck with

    Returns:
        the share, from 0 to 1; None where too few sittings tell of it, or the logbook can't be read
    """
    if (told := _told()) is None:
        return None
    from plans.logbook.taught import reduction_to_go_by

    return reduction_to_go_by(*told, by)


def scale_learned() -> Reckoned | None:
    """Share of the steel that a heat takes as scale in this shop, by all finished sittings in which that was measured.

    What was forgotten of them does not count. The logbook is read once in a run of the program.

    Returns:
        the share with its range; None where too little was measured, or the logbook can't be read
    """
    if (told := _told()) is None:
        return None
    from plans.logbook.taught import loss_to_go_by

    return loss_to_go_by(*told)


def look_up_anew() -> None:
    """Have the logbook and what was forgotten read again where either is asked for next."""
    _told.cache_clear()


@lru_cache(maxsize=1)
def _told() -> tuple[list[Evidence], Forgotten] | None:
    """What the sittings teach, and what of it was forgotten; None without a logbook that can be read."""
    places = user_folders()
    if not places.logbook.exists():
        return None
    from plans.logbook import Logbook, LogbookError
    from plans.logbook.taught import evidence_of
    from tui.config.shop_file import read_forgotten

    logbook = Logbook(places.logbook)
    try:
        return evidence_of(logbook.teaching()), read_forgotten(places.shop)
    except LogbookError:
        return None
    finally:
        logbook.close()
