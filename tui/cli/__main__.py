"""`python -m tui.cli`: heatbook, where it is not installed as a program."""

import sys

from tui.cli.main import main

sys.exit(main())
