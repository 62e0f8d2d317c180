"""Finding sittings: what is typed, the words and figures that it may name, and what a sitting is found by."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from plans.logbook.search.found_by import facts_of as facts_of
    from plans.logbook.search.typed import Search as Search, SearchError as SearchError, read_search as read_search
else:
    __getattr__ = hand_on(__name__)
