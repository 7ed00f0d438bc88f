"""Painters: each turns a `Drawing` into one kind of thing to look at, and knows nothing of what it means."""
