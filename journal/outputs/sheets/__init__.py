"""Day sheets as they are written: in house form, with nothing touched that the writer did not mean."""
