"""The live screen: a sitting as it runs."""
