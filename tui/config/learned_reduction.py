"""What a heat takes off in this shop, as its logbook tells."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from tui.config.folders import user_folders

if TYPE_CHECKING:
    from plans.blows import StruckBy
    from plans.reckoned import Reckoned


@lru_cache(maxsize=4)
def reduction_learned(by: StruckBy) -> Reckoned | None:
    """Share of the area that a heat takes off, by all sittings whose plans drew a bar from section to section.

    What was forgotten of them does not count. Looked up once in a run of the program.

    Args:
        by: what the work was struck with

    Returns:
        the share, from 0 to 1; None where too few sittings tell of it, or the logbook can't be read
    """
    places = user_folders()
    if not places.logbook.exists():
        return None
    from plans.logbook import Logbook, LogbookError
    from plans.logbook.taught import evidence_of, reduction_to_go_by
    from tui.config.shop_file import read_forgotten

    logbook = Logbook(places.logbook)
    try:
        return reduction_to_go_by(evidence_of(logbook.teaching()), read_forgotten(places.shop), by)
    except LogbookError:
        return None
    finally:
        logbook.close()
