"""What people and machines get: patterns, sheets, the resolved model, and their writing to disk."""
