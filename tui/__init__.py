"""The command line and the screens."""
