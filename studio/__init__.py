"""From a lesson script and a recording to a film whose pictures agree with the words."""
