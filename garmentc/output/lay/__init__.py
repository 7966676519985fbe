"""A cutting plan as drawings, and as a page to cut by."""
