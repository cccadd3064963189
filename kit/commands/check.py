"""`check`: the long studies behind the kit's numbers."""


def check(options):
    """Run the study that was asked for; its exit status."""
    from kit.commands.coverage import main  # here, so that no other command waits for it

    return main(options.rest)
