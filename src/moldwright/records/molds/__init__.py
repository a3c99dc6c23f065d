"""The register of molds: casts drawn, condition, shrink, and when the next glove should be made."""
