"""The cups of a piece's plan, as cards."""
