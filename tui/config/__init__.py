"""What the smith has set: folders, settings, the shop file."""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from tui.config.alone import alone_in as alone_in
    from tui.config.errors import UsageError as UsageError
    from tui.config.first_settings import keep_first_settings as keep_first_settings
    from tui.config.folders import Folders as Folders, user_folders as user_folders
    from tui.config.learned_factor import keep as keep, learned_of as learned_of, to_keep as to_keep
    from tui.config.learned_figures import (
        look_up_anew as look_up_anew,
        reduction_learned as reduction_learned,
        scale_learned as scale_learned,
    )
    from tui.config.lesson_to_plan import (
        LessonEdit as LessonEdit,
        Written as Written,
        edit_with_lesson as edit_with_lesson,
        edit_without_lesson as edit_without_lesson,
        noted as noted,
        own_copies as own_copies,
        own_file_of as own_file_of,
        plans_saying as plans_saying,
        put_back as put_back,
        says_in_former_words as says_in_former_words,
        take_back as take_back,
        usual_place as usual_place,
        write_edit as write_edit,
    )
    from tui.config.one_setting import heat_names_set as heat_names_set, shop_set as shop_set, units_set as units_set
    from tui.config.pedal_key import keep_pedal_key as keep_pedal_key
    from tui.config.plan_copy import copy_with_heats as copy_with_heats
    from tui.config.settings import (
        PROFILE as PROFILE,
        PedalSetting as PedalSetting,
        ProbeSetting as ProbeSetting,
        Settings as Settings,
    )
    from tui.config.settings_reader import KEPT as KEPT, read_settings as read_settings
    from tui.config.shop_file import (
        LearnedFactor as LearnedFactor,
        forget as forget,
        keep_factors as keep_factors,
        read_forgotten as read_forgotten,
        read_shop as read_shop,
        read_shop_and_forgotten as read_shop_and_forgotten,
        recall as recall,
    )
    from tui.config.shop_text import ShopText as ShopText
else:
    __getattr__ = hand_on(__name__)
