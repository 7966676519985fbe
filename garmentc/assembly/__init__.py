"""What is sewn to what: seams and finishes with their numbers, the cut line that follows from them, the order of work."""
