"""What is kept of one publishing for the next: it may be deleted at any time, and no output depends on it."""
