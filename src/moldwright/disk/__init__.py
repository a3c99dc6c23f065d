"""Files of this machine: locked while one works on them, written whole or not at all."""
