"""From a file or text to clean columns: source, records, table, numbers, columns, times."""
