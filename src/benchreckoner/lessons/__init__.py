"""One module a book: its pictures, guesses, worked cases and exercises."""
