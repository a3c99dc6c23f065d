"""The door: signing in by the passphrase or by an invitation's code."""
