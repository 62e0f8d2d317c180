"""The reckoner: a smith's questions about steel, each answered by one function from SI figures to a `Reckoning`."""
