"""What every bench sum is made of: its definition, what is given to it, and what it answers."""
