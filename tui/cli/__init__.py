"""The command line: its parser, a command a file, running without a screen, and reports."""
