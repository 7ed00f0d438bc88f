"""Captions, chapters and descriptions as values, and one short module for each file format."""
