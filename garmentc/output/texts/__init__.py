"""What outputs say, in English and in German, in cm or in inches."""
