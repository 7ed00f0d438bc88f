"""When each word, picture step and segment happens: the cue sheet.

`pace_track` or `recorded_track` say when the words are spoken; `assemble` makes the cue sheet from that.
"""
