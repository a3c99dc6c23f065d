"""What all tests share (and, by its place, lets them import the helpers beside it)."""
