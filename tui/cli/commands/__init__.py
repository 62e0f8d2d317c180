"""One command a file; each has `run(chosen) -> exit status`."""
