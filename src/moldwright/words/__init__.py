"""How a sentence reaches its reader: in English, unless who shows it has a catalog of the reader's language."""
