"""TOML that people write by hand: plans, probe profiles, settings and the shop file, all read in the same way.

`file` gets from a path to a text and from a text to its values, and refuses what is no TOML; `table` reads the values
by type and notes whatever is wrong with them as a `plans.errors.Fault`, with its line; `key_lines` finds that line;
`change` sets a single value in a text, or takes it out, and keeps everything else that stands in it.
"""

from typing import TYPE_CHECKING

from plans.front import hand_on

if TYPE_CHECKING:
    from plans.toml.change import (
        Scalar as Scalar,
        TomlChangeError as TomlChangeError,
        changed as changed,
        put as put,
        taken_out as taken_out,
        value_at as value_at,
        without as without,
    )
    from plans.toml.faults import (
        Meant as Meant,
        TomlFaults as TomlFaults,
        key_text as key_text,
        near_or_all as near_or_all,
        nearest as nearest,
    )
    from plans.toml.file import (
        LONGEST_LINE as LONGEST_LINE,
        NoTomlFileError as NoTomlFileError,
        TomlError as TomlError,
        TomlText as TomlText,
        parse_toml as parse_toml,
        read_text as read_text,
        read_toml as read_toml,
        shown_path as shown_path,
    )
    from plans.toml.key_lines import KeyPath as KeyPath, comments_in as comments_in, table_headers as table_headers
    from plans.toml.table import (
        ONE_LINE as ONE_LINE,
        PARAGRAPHS as PARAGRAPHS,
        TomlTable as TomlTable,
        kind_of as kind_of,
        shown as shown,
    )
else:
    __getattr__ = hand_on(__name__)
