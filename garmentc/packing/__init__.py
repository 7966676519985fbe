"""Lays plain polygons on a strip of given width and least length: numbers only, no garment words."""
