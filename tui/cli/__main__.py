"""`python -m tui.cli`: heatbook, where it is not installed as a program."""

from tui.cli.main import start

start()
