"""What is said aloud as a sitting goes on: pure, from events and glances to sentences."""
