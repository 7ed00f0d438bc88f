"""Pictures: values that know the numbers and marks they show, what they look like, and how that is painted."""
