"""Laying a garment on a cloth: shapes, the ground they lie on, plans, their finding and their verification."""
