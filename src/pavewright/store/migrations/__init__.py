"""Changes of the tables, one file each, applied in order when a database is opened."""
