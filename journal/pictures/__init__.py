"""Pictures: what is published of a photograph, never the file itself."""
