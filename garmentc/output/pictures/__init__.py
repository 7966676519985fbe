"""Small black and white pictures for the sheet: seam types cut across, and the pieces of each step as they lie."""
