"""Where the records lie: one file, or a database that several benches share."""
