"""What stands on the stage with each word: directions and counts brought together."""
