"""TOML that people write by hand: plans, probe profiles, settings and the shop file, all read in the same way.

`file` gets from a path to a text and from a text to its values, and refuses what is no TOML; `table` reads the values
by type and notes whatever is wrong with them as a `plans.errors.Fault`, with its line; `key_lines` finds that line;
`change` sets a single value in a text and keeps everything else that stands in it.
"""
