"""What was done: storage, journal, recovery and the figures of a sitting."""
