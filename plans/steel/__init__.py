"""What is known of steel: its grades and critical temperatures, martensite, temper, decarburization and scale."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from plans.steel.advice import LEAST_TO_HARDEN as LEAST_TO_HARDEN, Advice as Advice
    from plans.steel.carbon import (
        AUSTENITE as AUSTENITE,
        CARBON_FACTOR as CARBON_FACTOR,
        check_steel as check_steel,
        content_at as content_at,
        decarb_depth as decarb_depth,
        diffusivity as diffusivity,
        grinding_allowance as grinding_allowance,
        spread_over as spread_over,
    )
    from plans.steel.card import (
        Card as Card,
        Findings as Findings,
        card_of as card_of,
        stated_finding as stated_finding,
    )
    from plans.steel.composition import MOST_CARBON as MOST_CARBON, SYMBOLS as SYMBOLS, Composition as Composition
    from plans.steel.density import STEEL as STEEL, density_of as density_of, expansion as expansion
    from plans.steel.errors import SteelError as SteelError
    from plans.steel.evenness import (
        carbon_difference_left as carbon_difference_left,
        spread_to_even_out as spread_to_even_out,
    )
    from plans.steel.finding import Finding as Finding, Origin as Origin
    from plans.steel.fire_air import ScaleShare as ScaleShare, scale_share as scale_share
    from plans.steel.grades import Grade as Grade, What as What, all_grades as all_grades
    from plans.steel.hardness import tempered_hardness as tempered_hardness
    from plans.steel.history import hold as hold
    from plans.steel.hypereutectoid import Dissolved as Dissolved
    from plans.steel.ledger import Ledger as Ledger, Spell as Spell, carbon_ledger as carbon_ledger
    from plans.steel.lines import on_lines as on_lines
    from plans.steel.melting import burning as burning, hottest_to_forge as hottest_to_forge, solidus as solidus
    from plans.steel.naming import find_grade as find_grade, near_to as near_to, same_steel as same_steel
    from plans.steel.ranges import hardening_soak as hardening_soak
    from plans.steel.scale import (
        SCALE_FACTOR as SCALE_FACTOR,
        scale_loss as scale_loss,
        scale_thickness as scale_thickness,
        share_lost as share_lost,
    )
    from plans.steel.temper import Temper as Temper
else:
    __getattr__ = hand_on(__name__)
