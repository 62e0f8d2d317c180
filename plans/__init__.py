"""What is to be done, what was done, and the physics; no screen, no wires."""
