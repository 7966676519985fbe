"""What the compiler tells people: findings, their collection, their words on screen and on pages."""
