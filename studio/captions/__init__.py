"""Captions, chapters and descriptions: what was said and shown, as text with times.

Pure: a lesson and its cue sheet in, values out; each file format is one short module that turns values into text
(`vtt`, `srt`, `chapters_vtt`, `chapters_txt`, `descriptions_vtt`). To add a format, write such a module: one function
from a value to `str`.
"""

from studio.captions.chapters import Chapter, make_chapters
from studio.captions.descriptions import Description, make_descriptions
from studio.captions.make import make_captions
from studio.captions.model import Caption, Captions, CaptionStyle, Numerals

__all__ = [
    "Caption",
    "CaptionStyle",
    "Captions",
    "Chapter",
    "Description",
    "Numerals",
    "make_captions",
    "make_chapters",
    "make_descriptions",
]
