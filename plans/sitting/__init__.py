"""The running of a plan: events, the engine, calls and cautions."""
