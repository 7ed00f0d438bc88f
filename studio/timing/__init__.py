"""When each word, picture step and segment happens: the cue sheet."""
