"""Plans as texts that change: written from key records, edited with every comment kept, compared, and made anew."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from plans.editing.draft import Draft as Draft, DraftTable as DraftTable, draft_of as draft_of
    from plans.editing.plan_toml import MADE_FROM as MADE_FROM, toml_of as toml_of
else:
    __getattr__ = hand_on(__name__)
