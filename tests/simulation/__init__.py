"""A group over a year: what members ask, what is answered at once, what experts settle, and what is right of it."""
