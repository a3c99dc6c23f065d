"""The order: its keys, what a person may write for each, how it is read, and its JSON Schema."""
