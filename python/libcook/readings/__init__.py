"""What is read off an outcome: its facts, its parts, its tables."""
