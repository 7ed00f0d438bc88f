"""Numbers in talk: number words, statements, counts and stories as values with places."""
