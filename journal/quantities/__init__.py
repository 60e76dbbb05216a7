"""What the current facts imply, what is missing and what disagrees. Pure."""
