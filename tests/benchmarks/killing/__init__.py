"""What `tests.benchmarks.killed` kills, and what must be true of it afterwards."""
