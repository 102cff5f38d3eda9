"""Packs: folders of knowledge in open formats, read, checked and written."""
