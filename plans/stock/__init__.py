"""Stock: from the finished piece back to the saw cut, forward through a plan, and from the rack. Volume is held."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from plans.stock.draw import drawn_length as drawn_length
    from plans.stock.drawn import drawn_out as drawn_out, piece_drawn as piece_drawn
    from plans.stock.losses import (
        USUAL_SCALE as USUAL_SCALE,
        Loss as Loss,
        LossKind as LossKind,
        ScaleLoss as ScaleLoss,
    )
    from plans.stock.plan_volume import PlanVolume as PlanVolume, StepVolume as StepVolume, through as through
    from plans.stock.rack import (
        FromRack as FromRack,
        Need as Need,
        RackBar as RackBar,
        Taken as Taken,
        cut_from as cut_from,
    )
    from plans.stock.sawing import (
        Allowances as Allowances,
        ComesOut as ComesOut,
        Cut as Cut,
        comes_out as comes_out,
        saw_cut as saw_cut,
    )
else:
    __getattr__ = hand_on(__name__)
