"""The desk in a browser: pages, elements, doors, long work."""
