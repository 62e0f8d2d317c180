"""What is known of steel: its grades and critical temperatures, martensite, temper, decarburization and scale."""
