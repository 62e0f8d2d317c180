"""Heat in a bar of steel: its thermal properties, the conduction solver, surroundings, forecasts, and its glow."""
