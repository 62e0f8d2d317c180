"""Billets: layers by folding, twists, bars side by side, three layers, notches at the point, cores that wander."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from plans.billets.composite import (
        CONSTANT as CONSTANT,
        Blade as Blade,
        Start as Start,
        bars_for as bars_for,
        borders_of as borders_of,
        shares_of as shares_of,
    )
    from plans.billets.drawn import (
        composite_drawn as composite_drawn,
        laminate_drawn as laminate_drawn,
        notch_drawn as notch_drawn,
        stack_drawn as stack_drawn,
        twist_drawn as twist_drawn,
        wander_drawn as wander_drawn,
    )
    from plans.billets.errors import BilletError as BilletError, above_zero as above_zero
    from plans.billets.laminate import LINE as LINE, Laminate as Laminate
    from plans.billets.layers import (
        ARITHMETIC as ARITHMETIC,
        Meeting as Meeting,
        Stage as Stage,
        band_on_bevel as band_on_bevel,
        carbon_left as carbon_left,
        layer_thickness as layer_thickness,
        layers_after as layers_after,
        layers_in_edge as layers_in_edge,
        meeting_of as meeting_of,
        shares_of_steels as shares_of_steels,
        stages as stages,
    )
    from plans.billets.notch import (
        USUAL_ANGLE as USUAL_ANGLE,
        USUAL_LOSS as USUAL_LOSS,
        Notch as Notch,
        notch_for as notch_for,
    )
    from plans.billets.twist import LEAST_PITCH as LEAST_PITCH, Twist as Twist, twisted as twisted
    from plans.billets.wander import Corners as Corners, Wander as Wander, wandered as wandered
else:
    __getattr__ = hand_on(__name__)
