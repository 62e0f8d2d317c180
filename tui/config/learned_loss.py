"""What a heat takes as scale in this shop, as its logbook tells."""

from __future__ import annotations

from functools import lru_cache
from typing import TYPE_CHECKING

from tui.config.folders import user_folders

if TYPE_CHECKING:
    from plans.reckoned import Reckoned


@lru_cache(maxsize=1)
def scale_learned() -> Reckoned | None:
    """Share of the steel that a heat takes as scale in this shop, by all finished sittings in which that was measured.

    What was forgotten of them does not count. Looked up once in a run of the program.

    Returns:
        the share with its range; None where too little was measured, or the logbook can't be read
    """
    places = user_folders()
    if not places.logbook.exists():
        return None
    from plans.logbook import Logbook, LogbookError
    from plans.logbook.taught import evidence_of, loss_to_go_by
    from tui.config.shop_file import read_forgotten

    logbook = Logbook(places.logbook)
    try:
        return loss_to_go_by(evidence_of(logbook.teaching()), read_forgotten(places.shop))
    except LogbookError:
        return None
    finally:
        logbook.close()
