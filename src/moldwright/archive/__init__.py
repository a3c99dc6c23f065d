"""All of a store as one open file: written, read again, and put back into an empty store of either engine."""
