"""The journal of a sitting that runs: its lines, appended, numbered, read back and held against one another."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from plans.logbook.journal.appending import Journal as Journal
    from plans.logbook.journal.log_check import SAME as SAME, check_log as check_log
    from plans.logbook.journal.reading_back import (
        has_ended as has_ended,
        read_header as read_header,
        read_journal as read_journal,
        signature as signature,
        stamp_of as stamp_of,
        stamped as stamped,
    )
else:
    __getattr__ = hand_on(__name__)
