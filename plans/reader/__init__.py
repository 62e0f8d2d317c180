"""Plan files: TOML in, a `Plan` out, or a `PlanError` that names file, line, key and what would be right.

A plan file is meant to be read and written by hand. Quantities are text with a unit, metric or inch, as
`plans.quantities` reads them ("1250 degC", "25 x 10 mm", "1 1/4 in", "4 min"). Texts of paragraphs (`about`,
`instruction`) may be broken into lines anywhere; an empty line begins a new paragraph. A short one:

```toml
heatbook = 1
title = "Drawknife with a laid steel edge"

[[bar]]
name = "edge"
steel = "1084"
section = "25 x 5 mm"
length = "220 mm"

[[step]]
title = "Harden the edge"
kind = "harden"
fire = "830 degC"
heat_to = "800 degC"

[step.quench]
medium = "oil at {55 degC}"
for = "10 s"
within = "3 s"
```

Every key is declared once, in plans/reader/keys.py. What an editor completes from (plans/plan.schema.json) and the
page on all keys (plans/plan.keys.md) are made from there.

Two kinds of fault are told apart (`plans.errors.FaultKind`): those of shape, which the JSON Schema finds as well, and
those of value, which take arithmetic or sense. What is odd in a plan that can be followed all the same, `notes_on`
tells.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from plans.reader.answer_file import (
        MADE_FROM as MADE_FROM,
        AnswerFile as AnswerFile,
        made_from as made_from,
        read_answer_file as read_answer_file,
    )
    from plans.reader.answer_keys import SCALE as SCALE, AnswerKeys as AnswerKeys
    from plans.reader.declaring import (
        Key as Key,
        ManyNested as ManyNested,
        Nested as Nested,
        keys_of as keys_of,
        read_keys as read_keys,
        write_keys as write_keys,
    )
    from plans.reader.key_help import key_meanings as key_meanings, word_meanings as word_meanings
    from plans.reader.keys import (
        LENGTH as LENGTH,
        MOST_HEATS as MOST_HEATS,
        SIDE as SIDE,
        AirKeys as AirKeys,
        BarKeys as BarKeys,
        CuesKeys as CuesKeys,
        DipKeys as DipKeys,
        OvenKeys as OvenKeys,
        PlanKeys as PlanKeys,
        QuenchKeys as QuenchKeys,
        StepKeys as StepKeys,
    )
    from plans.reader.notes import notes_on as notes_on
    from plans.reader.piece_file import (
        Piece as Piece,
        find_piece as find_piece,
        piece_of as piece_of,
        piece_text as piece_text,
        read_rack as read_rack,
    )
    from plans.reader.plan_files import (
        MOST_BYTES as MOST_BYTES,
        SHELF as SHELF,
        PlanFile as PlanFile,
        ShelfPlan as ShelfPlan,
        files_at_hand as files_at_hand,
        find_plan as find_plan,
        plan_path as plan_path,
        read_entry as read_entry,
        read_plan_file as read_plan_file,
    )
    from plans.reader.plan_text import read_plan as read_plan
    from plans.reader.steels import steels_of as steels_of
    from plans.reader.text_checks import check_texts as check_texts
    from plans.reader.value_types import (
        AUTO as AUTO,
        Choice as Choice,
        Choices as Choices,
        Count as Count,
        Line as Line,
        Lines as Lines,
        OrAuto as OrAuto,
        Paragraphs as Paragraphs,
        QuantityOrEach as QuantityOrEach,
        Value as Value,
    )
else:
    __getattr__ = hand_on(__name__)
