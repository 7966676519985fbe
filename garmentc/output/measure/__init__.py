"""The technical sheet: what the finished garment measures in each size, how to take it, how far it may be off."""
