"""How the pieces change from size to size: as text, as a table, and as one true-scale picture of each piece."""
