"""What is sewn to what: seams and finishes with their numbers, the cut lines they ask for, the order of work."""
