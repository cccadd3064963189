"""The subcommands of `python3 -m kit` that need the kit's environment."""
