"""Questions that a smith asks of steel, each answered by one function from plain SI figures to a `Reckoning`."""
