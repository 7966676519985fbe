"""What a spec means, checked without any body: names, kinds, units, and who depends on whom."""
