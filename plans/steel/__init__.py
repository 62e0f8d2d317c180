"""Steel itself: grades, critical temperatures, martensite, and what follows for the fire."""
