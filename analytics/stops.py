"""The one error that people are meant to read."""


class WorkStopped(Exception):  # noqa: N818
    """The input or the settings stop the work.

    Its text is one sentence that says where, what was found, what was expected and what to do; the command line
    prints it to stderr and ends with exit status 1.
    """


class LeftOpen(WorkStopped):
    """A file can be read in two ways, and salon.toml does not say which; section: where it would say it."""

    def __init__(self, says: str, section: str) -> None:
        super().__init__(says)
        self.section = section


class TablesLacking(WorkStopped):
    """No export is one of these tables, without which there are no figures; what is there is in order."""

    def __init__(self, says: str, tables: tuple[str, ...]) -> None:
        super().__init__(says)
        self.tables = tables
