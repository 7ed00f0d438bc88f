"""Pictures as values that know the numbers they show, and the painters that draw those values."""
