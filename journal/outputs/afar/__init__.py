"""Content and archives that lie elsewhere: fetched, published here car by car, and put back file by file."""
