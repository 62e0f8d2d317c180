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
        the share, from 0 to 1; None where the logbook tells of none, or can't be read
    """
    from plans.press import Drawn, learned_reduction

    places = user_folders()
    if not places.logbook.exists():
        return None
    from plans.logbook import Logbook, LogbookError
    from plans.logbook.taught import drawn_that_counts, evidence_of
    from tui.config.shop_file import read_forgotten

    logbook = Logbook(places.logbook)
    try:
        told = drawn_that_counts(evidence_of(logbook.teaching()), read_forgotten(places.shop))
    except LogbookError:
        return None
    finally:
        logbook.close()
    return learned_reduction(
        [Drawn(step.before, step.after, step.heats, step.measured) for _, step in told if step.by is by]
    )
