"""What is said of a sitting that was kept, line by line: the same on the command line, the screen and the page."""
