"""`check`: the long studies behind the kit's numbers."""


def check(options):
    """Run the study that was asked for, or write the record of predictions anew; its exit status."""
    if options.predictions:
        from kit.analysis.causes import write_record

        print(f"Written: {write_record()}")
        return 0
    if options.whole_class:
        from kit.commands.classcheck import try_served_class

        return try_served_class(options.rest)
    from kit.commands.coverage import main  # here, so that no other command waits for it

    return main(["--only", "causes", *options.rest] if options.causes else options.rest)
