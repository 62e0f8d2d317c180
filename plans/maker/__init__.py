"""From what shall be made to a plan: every step with its figures, why each is so, and what does not add up."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from plans.maker.adding_up import doubts_on as doubts_on, proposal_of as proposal_of
    from plans.maker.apart import Apart as Apart, apart_from as apart_from, apart_from_maker as apart_from_maker
    from plans.maker.applying import Group as Group, applies as applies, parts_of as parts_of
    from plans.maker.building import closing_notch as closing_notch
    from plans.maker.drafting import (
        comment_of as comment_of,
        draft_of_proposal as draft_of_proposal,
        text_of as text_of,
    )
    from plans.maker.errors import MakeError as MakeError
    from plans.maker.hurry import hurried as hurried
    from plans.maker.proposal import Proposal as Proposal, ProposedStep as ProposedStep
    from plans.maker.proposing import propose as propose
    from plans.maker.refusing import refused_words as refused_words
    from plans.maker.settled import Settled as Settled, settle as settle
    from plans.maker.taking import taken as taken
    from plans.maker.why import (
        Basis as Basis,
        Chosen as Chosen,
        Concern as Concern,
        Why as Why,
        arithmetic as arithmetic,
        asked as asked,
        practice as practice,
        sentence as sentence,
    )
else:
    __getattr__ = hand_on(__name__)
