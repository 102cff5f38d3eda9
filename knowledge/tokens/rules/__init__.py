"""The rules that pass a piece over, by what they recognise; their order is in `knowledge.tokens.passing_over`."""
