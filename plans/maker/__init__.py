"""A plan made from what shall be made."""
