"""What a spoken talk says of the day's work, as proposals that stand beside the words they came from."""
