"""What callers give: read by declared types, quoted, and refused in a cook's words."""
