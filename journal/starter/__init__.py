"""The starter register that a new car file begins with."""
