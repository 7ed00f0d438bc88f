"""The paper that goes with a lesson."""
