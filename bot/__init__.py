"""Everything that talks to people: channels -> conversation -> knowledge; one wiring module sees all."""
