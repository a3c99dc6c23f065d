"""The casts of a piece's runs."""
