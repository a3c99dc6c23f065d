"""The plan: its types, its JSON text and its JSON Schema."""
