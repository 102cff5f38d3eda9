"""The ways in and out. Thin: they carry messages, the conversation thinks."""
