"""Speed, told as ratios to floors that are measured in the same run. Not part of the tests."""
