"""Plans as texts that change: written from key records, edited with every comment kept, compared, and made anew."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from plans.editing.alignment import Name as Name, in_order as in_order
    from plans.editing.changes import with_keys as with_keys, with_made_from as with_made_from
    from plans.editing.differing import (
        Difference as Difference,
        KeyDifference as KeyDifference,
        PartDifference as PartDifference,
        difference as difference,
    )
    from plans.editing.draft import Draft as Draft, DraftTable as DraftTable, draft_of as draft_of
    from plans.editing.figures import Figure as Figure, figures_of as figures_of
    from plans.editing.history import History as History
    from plans.editing.lines import (
        LinePlace as LinePlace,
        with_line as with_line,
        with_line_instead as with_line_instead,
        without_line as without_line,
    )
    from plans.editing.new_step import with_new_step as with_new_step
    from plans.editing.order import Part as Part
    from plans.editing.parts import added as added, moved as moved, removed as removed, repeated as repeated
    from plans.editing.plan_toml import MADE_FROM as MADE_FROM, toml_of as toml_of
    from plans.editing.remaking import Remade as Remade, remake as remake
    from plans.editing.setting import key_at as key_at
    from plans.editing.splitting import split_step as split_step, with_heats as with_heats
    from plans.editing.typed import typed_text as typed_text, typed_value as typed_value
else:
    __getattr__ = hand_on(__name__)
