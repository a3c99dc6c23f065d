"""The shop's records: a store of events, files and plans, and what is derived from them."""
