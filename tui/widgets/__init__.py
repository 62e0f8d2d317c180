"""The parts that screens are built from."""
