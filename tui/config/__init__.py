"""What the smith has set: folders, settings, the shop file."""
