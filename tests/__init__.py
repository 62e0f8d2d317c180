"""Tests of heatbook, and two tools beside them: `python -m tests.cost` and `python -m tests.faults`."""
