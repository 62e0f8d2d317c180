"""The bench: bevels that are to agree, a profile that is to be even, bevels that are forged in, decarb ground away."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from plans.bench.bevels import (
        BEVELS as BEVELS,
        BenchError as BenchError,
        DoubleEdge as DoubleEdge,
        Face as Face,
        Measured as Measured,
    )
    from plans.bench.clearing import Cleared as Cleared, clear_decarb as clear_decarb
    from plans.bench.drawn import (
        bevels_drawn as bevels_drawn,
        forged_drawn as forged_drawn,
        profile_drawn as profile_drawn,
    )
    from plans.bench.evening import (
        AGREE as AGREE,
        Cut as Cut,
        as_deep_on as as_deep_on,
        ground as ground,
        next_cut as next_cut,
        until_even as until_even,
    )
    from plans.bench.forged import (
        LEAST_WIDENING as LEAST_WIDENING,
        MOST_WIDENING as MOST_WIDENING,
        WIDENING as WIDENING,
        Forged as Forged,
        forge_bevel as forge_bevel,
    )
    from plans.bench.profile import Evened as Evened, even_profile as even_profile
    from plans.bench.readings import Told as Told, section_of as section_of, told_by as told_by
else:
    __getattr__ = hand_on(__name__)
