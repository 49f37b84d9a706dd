"""Reading: files to records and problems. Nothing here raises for what a person wrote."""
