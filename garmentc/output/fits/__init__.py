"""Which cloth gives which size, as text, tables and a picture."""
