"""Is the store sound? Every part of it is looked at; one bad row ends nothing."""
