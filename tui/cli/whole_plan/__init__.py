"""A whole plan to read before the fire: what is worked out of it, as text, and as JSON."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from tui.cli.whole_plan.as_card import card_page as card_page
    from tui.cli.whole_plan.as_json import (
        bar_record as bar_record,
        check_record as check_record,
        concern_record as concern_record,
        difference_record as difference_record,
        fault_record as fault_record,
        look_record as look_record,
        short_record as short_record,
    )
    from tui.cli.whole_plan.as_text import look_lines as look_lines
    from tui.cli.whole_plan.look import PlanLook as PlanLook, look_at as look_at
else:
    __getattr__ = hand_on(__name__)
