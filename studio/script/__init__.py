"""The lesson script: its language, its values and its reader."""
