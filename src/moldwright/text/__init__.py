"""What strangers write: read as TOML within bounds, checked as lines, shown without harm."""
