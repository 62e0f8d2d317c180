"""The running sitting: what begins it, what feeds it, and what is heard of it."""
