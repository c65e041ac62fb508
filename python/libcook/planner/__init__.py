"""The best plan: what may vary, what is wanted, the search, rules for the day, words, a figure."""
