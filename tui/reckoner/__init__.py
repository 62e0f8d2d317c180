"""What is asked of the reckoner, in words and figures as people type them; one list for command line and screen."""
