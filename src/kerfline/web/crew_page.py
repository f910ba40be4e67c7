"""The crew's page of a layout as a file."""

from kerfline.library import Result


class CrewPage(Result):
    """The cuts of a layout as one page for the crew's tablet."""

    def __init__(self, laid_out: Result) -> None:
        super().__init__(laid_out.outcome, laid_out.plan, command="page")

    def files(self) -> dict[str, bytes]:
        """The page, by its file name."""
        from kerfline.app.file_names import file_stem
        from kerfline.web.one_file import page_bytes

        name = f"{file_stem(self.name)}-page.html"
        return {name: page_bytes(self.outcome, self.plan)}
