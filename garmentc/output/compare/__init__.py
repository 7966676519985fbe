"""What has changed between two states of a garment, as text."""
