"""The kit folder: everything that goes out with a lesson."""
