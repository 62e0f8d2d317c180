"""A kept sitting looked back on: its time line, what stands out in it, planned beside done."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from plans.logbook.reviewing.looking_back import (
        BESIDE_HEADING as BESIDE_HEADING,
        STANDS_OUT_HEADING as STANDS_OUT_HEADING,
        TOLLS as TOLLS,
        TOTALS_HEADING as TOTALS_HEADING,
        LookingBack as LookingBack,
        outline as outline,
    )
    from plans.logbook.reviewing.timeline import Timeline as Timeline
else:
    __getattr__ = hand_on(__name__)
