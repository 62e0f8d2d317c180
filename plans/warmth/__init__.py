"""Heat in a bar of steel: properties, conduction, surroundings, forecasts, glow."""
