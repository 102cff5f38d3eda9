"""The commands. Each module has `add(commands)`, which describes the command, and a `run` that carries it out."""
