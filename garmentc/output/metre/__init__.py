"""What a garment needs of cloth by the metre, as text and tables."""
