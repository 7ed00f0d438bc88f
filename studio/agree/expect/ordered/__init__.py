"""What a number ought to be by all that is said and shown around it, read in its order."""
