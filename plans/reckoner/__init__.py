"""The reckoner: a smith's questions about steel, each answered by one function from SI figures to a `Reckoning`."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from plans.reckoner.bevels import reckon_bevels as reckon_bevels
    from plans.reckoner.carbon import reckon_decarb as reckon_decarb, reckon_layers as reckon_layers
    from plans.reckoner.composite import (
        make_blade as make_blade,
        reckon_bars as reckon_bars,
        reckon_composite as reckon_composite,
    )
    from plans.reckoner.cooling import reckon_cooling as reckon_cooling
    from plans.reckoner.draw import reckon_draw as reckon_draw
    from plans.reckoner.errors import ReckonError as ReckonError, blamed as blamed
    from plans.reckoner.figures import Fact as Fact, Figure as Figure, Given as Given, given as given
    from plans.reckoner.forged import reckon_forged as reckon_forged
    from plans.reckoner.glow import reckon_glow as reckon_glow
    from plans.reckoner.heats import reckon_heats as reckon_heats
    from plans.reckoner.kinds import (
        DIFFERENCE as DIFFERENCE,
        FINE_TEMPERATURE as FINE_TEMPERATURE,
        LENGTH as LENGTH,
        MILLIVOLTS as MILLIVOLTS,
        TEMPERATURE as TEMPERATURE,
    )
    from plans.reckoner.laminate import reckon_laminate as reckon_laminate
    from plans.reckoner.layers import Ground as Ground, WeldHeats as WeldHeats, reckon_folds as reckon_folds
    from plans.reckoner.notch import reckon_notch as reckon_notch
    from plans.reckoner.plan_stock import reckon_plan_stock as reckon_plan_stock
    from plans.reckoner.profile import reckon_profile as reckon_profile
    from plans.reckoner.reckoning import Reckoning as Reckoning
    from plans.reckoner.scale import reckon_scale as reckon_scale
    from plans.reckoner.skin import reckon_skin as reckon_skin
    from plans.reckoner.soak import reckon_soak as reckon_soak
    from plans.reckoner.squeeze import reckon_squeeze as reckon_squeeze
    from plans.reckoner.steel import reckon_steel as reckon_steel
    from plans.reckoner.stock import SkinHeats as SkinHeats, reckon_piece as reckon_piece
    from plans.reckoner.temper import reckon_temper as reckon_temper
    from plans.reckoner.twist import reckon_twist as reckon_twist
    from plans.reckoner.wander import reckon_wander as reckon_wander
    from plans.reckoner.weight import reckon_weight as reckon_weight
else:
    __getattr__ = hand_on(__name__)
