"""The plans at hand, as one chooses among them: in groups, found by words, and what of each is seen beforehand."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from plans.at_hand.groups import Group as Group, group_of as group_of
    from plans.at_hand.listed import ListedPlan as ListedPlan, in_order as in_order, list_plans as list_plans
    from plans.at_hand.picture import sections_drawn as sections_drawn
    from plans.at_hand.words import has_words as has_words, words_of as words_of
else:
    __getattr__ = hand_on(__name__)
