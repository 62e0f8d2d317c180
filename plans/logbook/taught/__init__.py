"""What a shop's sittings teach together: how much it rests on, and what of it was forgotten."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from plans.logbook.taught.combining import Combined as Combined, combined as combined
    from plans.logbook.taught.evidence import (
        FEWEST as FEWEST,
        Evidence as Evidence,
        Forgotten as Forgotten,
        drawn_that_counts as drawn_that_counts,
        evidence_of as evidence_of,
    )
    from plans.logbook.taught.figures import FactorFigure as FactorFigure
    from plans.logbook.taught.going_by import (
        loss_to_go_by as loss_to_go_by,
        reduction_to_go_by as reduction_to_go_by,
    )
    from plans.logbook.taught.lines import (
        ALL_FORGOTTEN as ALL_FORGOTTEN,
        NOTHING as NOTHING,
        forgotten_line as forgotten_line,
        row_lines as row_lines,
    )
    from plans.logbook.taught.names import names_a_row as names_a_row, row_names as row_names
    from plans.logbook.taught.rows import Looked as Looked, Row as Row, taught as taught
else:
    __getattr__ = hand_on(__name__)
